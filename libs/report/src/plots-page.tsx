// The charts of one setup as a page of its own: everything inside one HTML file, no script, nothing fetched. Each chart is
// introduced by the numbers to read off it; what it shows is said in words as well, for those who cannot see it.
import type { SetupCurves } from '@ductwright/contract/curves'
import { inert } from '@ductwright/contract/inert'
import type { SetupReport } from '@ductwright/contract/setup'
import type { ComponentChildren } from 'preact'
import { renderToStaticMarkup } from 'preact-render-to-string'
import type { Chart, Panel } from './charts/chart.js'
import { type DragTermsSeries, dragTermsChart } from './charts/drag-terms.js'
import { drawSvg } from './charts/draw.js'
import { effluxChart } from './charts/efflux.js'
import { heatChart } from './charts/heat.js'
import { lapseChart } from './charts/lapse.js'
import { marginsChart } from './charts/margins.js'
import { type Frame, NARROW, WIDE } from './charts/theme.js'
import { thrustDragChart } from './charts/thrust-drag.js'
import { plotsStyle } from './plots-style.js'
import { partsLine } from './setup-words.js'

/** What the page says about the setup: a part of its report. */
export interface PlotsSubject extends Pick<SetupReport, 'names' | 'model_version' | 'cautions'> {
  readonly understood: Pick<SetupReport['understood'], 'title' | 'setup'>
  readonly airframe: DragTermsSeries & { readonly name: string }
  readonly catalogue: Pick<SetupReport['catalogue'], 'name' | 'version'>
}

export interface PlotsData {
  readonly subject: PlotsSubject
  readonly curves: SetupCurves
}

/** Frame of one of several panels side by side, and below each other. */
const PANEL: Frame = { narrow: true, width: 312, height: 200, left: 52, right: 16, top: 8, bottom: 42 }

/** The page, same bytes for the same data. */
export async function renderPlotsPage({ subject, curves }: PlotsData): Promise<string> {
  const { heat } = curves
  const charts = [
    thrustDragChart(curves),
    effluxChart(curves),
    lapseChart(curves),
    heat === null ? null : heatChart(heat),
    marginsChart(curves),
    dragTermsChart(subject.airframe),
  ].filter((chart) => chart !== null)
  const figures: Drawn[] = []
  for (const chart of charts) figures.push(await drawnChart(chart))
  const body = renderToStaticMarkup(<Page subject={subject} figures={figures} />)
  return `<!doctype html>\n${body}\n`
}

interface Drawn {
  readonly chart: Chart
  /** Pictures of each panel, wide and narrow; one when both are the same. */
  readonly pictures: readonly (readonly string[])[]
}

async function drawnChart(chart: Chart): Promise<Drawn> {
  const frames = chart.panels.length > 1 ? [PANEL] : [WIDE, NARROW]
  const pictures: string[][] = []
  for (const panel of chart.panels) {
    const drawn: string[] = []
    for (const frame of frames) drawn.push(await drawSvg(panel.draw(frame), panel.alt))
    pictures.push(drawn)
  }
  return { chart, pictures }
}

function Page({ subject, figures }: { readonly subject: PlotsSubject; readonly figures: readonly Drawn[] }) {
  const title = inert(subject.understood.title, 120)
  const { catalogue } = subject
  const foot = `Catalogue ${inert(catalogue.name, 80)}, version ${inert(catalogue.version, 80)}. Models ${inert(subject.model_version, 40)}.`
  return (
    <Document title={title}>
      <h1>{title}</h1>
      <p>{inert(subject.airframe.name, 80)}</p>
      <p class="quiet">{partsLine(subject.understood.setup, subject.names)}</p>
      {subject.cautions.slice(0, 1).map((caution) => (
        <p class="caution">{inert(caution)}</p>
      ))}
      {figures.map((figure) => (
        <Figure {...figure} />
      ))}
      <footer class="quiet">
        {subject.cautions.slice(1).map((caution) => (
          <p>{inert(caution)}</p>
        ))}
        <p>{foot}</p>
      </footer>
    </Document>
  )
}

function Document({ title, children }: { readonly title: string; readonly children: ComponentChildren }) {
  const policy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"
  return (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content={policy} />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>{title}</title>
        <style dangerouslySetInnerHTML={{ __html: plotsStyle }} />
      </head>
      <body>
        <main>{children}</main>
      </body>
    </html>
  )
}

function Figure({ chart, pictures }: Drawn) {
  return (
    <figure>
      <figcaption>
        <h2>{chart.heading}</h2>
        {chart.caption.map((sentence) => (
          <p>{sentence}</p>
        ))}
      </figcaption>
      <div class={pictures.length > 1 ? 'several' : 'one'}>
        {pictures.map((picture, i) => (
          <PanelOf panel={chart.panels[i]} picture={picture} />
        ))}
      </div>
    </figure>
  )
}

function PanelOf({ panel, picture }: { readonly panel: Panel | undefined; readonly picture: readonly string[] }) {
  const [wide = '', narrow] = picture
  return (
    <div>
      {panel?.heading ? <h3>{panel.heading}</h3> : null}
      {narrow === undefined ? (
        <div dangerouslySetInnerHTML={{ __html: wide }} />
      ) : (
        <>
          <div class="wide" dangerouslySetInnerHTML={{ __html: wide }} />
          <div class="narrow" dangerouslySetInnerHTML={{ __html: narrow }} />
        </>
      )}
    </div>
  )
}
