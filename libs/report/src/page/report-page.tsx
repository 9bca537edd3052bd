// The answer as a page: one HTML file that works from a disk without a network. It lays out the same letter as the mail,
// then the whole list with its tools and a bench card for each pick. Everything can be read without its script.
import type { Receipt, Result } from '@ductwright/contract/result'
import { renderToStaticMarkup } from 'preact-render-to-string'
import { benchCard } from '../bench-card/bench-card.js'
import { type AnswerChart, answerCharts } from '../charts/answer-charts.js'
import { composeLetter } from '../compose-letter.js'
import type { Letter, Section } from '../letter.js'
import { distinctPicks } from '../pick-names.js'
import { anchor } from './anchor.js'
import { CardView } from './card-view.js'
import { FrontTable } from './front-table.js'
import { embedded, pageData } from './page-data.js'
import { type PageParts, pageParts } from './page-policy.js'
import { Blocks, type Drawing } from './report-blocks.js'
import { CompareTool, LinesTool } from './tools.js'

/** `receipt` is that of the work, where it is at hand. */
export async function renderReportPage(result: Result, receipt: Receipt | null = null): Promise<string> {
  const wide = await answerCharts(result, { width: 600 })
  const narrow = await answerCharts(result, { width: 320 })
  const content: Content = {
    result,
    letter: composeLetter(result, receipt, wide),
    drawing: drawingOf(wide, narrow),
    cards: distinctPicks(result).map((pick) => benchCard(result, pick)),
  }
  const body = renderToStaticMarkup(<Page content={content} parts={await pageParts()} />)
  return `<!doctype html>\n${body}\n`
}

interface Content {
  readonly result: Result
  readonly letter: Letter
  readonly drawing: Drawing
  readonly cards: readonly Letter[]
}

/** Ids within the narrow pictures are told apart from those of the wide ones, as both stand in one page. */
function drawingOf(wide: readonly AnswerChart[], narrow: readonly AnswerChart[]): Drawing {
  return (id) => {
    const [desk, telephone] = [wide, narrow].map((charts) => charts.find((chart) => chart.id === id)?.svg)
    if (desk === undefined || telephone === undefined) return undefined
    return { wide: desk, narrow: telephone.replace(/(\bid="|url\(#|href="#)/g, '$1narrow-') }
  }
}

function Page({ content, parts }: { readonly content: Content; readonly parts: PageParts }) {
  const { letter, result } = content
  return (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content={parts.policy} />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="referrer" content="no-referrer" />
        <title>{letter.headline}</title>
        <style dangerouslySetInnerHTML={{ __html: parts.style }} />
      </head>
      <body>
        <Top letter={letter} cards={content.cards.length} listed={result.front.length > 0} />
        <main>
          <Main content={content} />
        </main>
        <script
          type="application/json"
          id="list-data"
          dangerouslySetInnerHTML={{ __html: embedded(pageData(result)) }}
        />
        <script dangerouslySetInnerHTML={{ __html: parts.script }} />
      </body>
    </html>
  )
}

function Top(parts: { readonly letter: Letter; readonly cards: number; readonly listed: boolean }) {
  const { letter, cards, listed } = parts
  return (
    <header class="top">
      <p class="note">
        <span class="mark">DUCTWRIGHT</span> · {letter.title}
      </p>
      <h1>{letter.headline}</h1>
      <nav aria-label="On this page">
        {cards > 0 && <a href="#bench-cards">{cards > 1 ? 'Bench cards' : 'Bench card'}</a>}
        {listed && <a href="#every-setup">Every setup</a>}
        <a href={`#${anchor(letter.sections.at(-1)?.heading ?? '')}`}>{letter.sections.at(-1)?.heading}</a>
      </nav>
    </header>
  )
}

/** The letter whole, behind it the list and the cards. */
function Main({ content }: { readonly content: Content }) {
  const { letter, result, cards, drawing } = content
  return (
    <>
      {letter.sections.map((section) => (
        <SectionView section={section} drawing={drawing} />
      ))}
      {result.front.length > 0 && <EverySetup result={result} />}
      <footer class="note">
        {letter.footer.map((line) => (
          <p>{line}</p>
        ))}
      </footer>
      {cards.length > 0 && (
        <section id="bench-cards" class="cards">
          {cards.map((card) => (
            <CardView card={card} />
          ))}
        </section>
      )}
    </>
  )
}

function SectionView({ section, drawing }: { readonly section: Section; readonly drawing: Drawing }) {
  return (
    <section id={section.heading === '' ? 'answer' : anchor(section.heading)}>
      {section.heading !== '' && <h2>{section.heading}</h2>}
      <Blocks blocks={section.blocks} drawing={drawing} />
    </section>
  )
}

function EverySetup({ result }: { readonly result: Result }) {
  return (
    <>
      <section id="every-setup">
        <h2>Every setup of the list</h2>
        <LinesTool />
        <FrontTable result={result} />
      </section>
      <CompareTool currency={result.catalogue.currency} />
    </>
  )
}
