// The page of charts: one file that needs nothing else, pictures that parse and say what their axes are, labels that do not
// cover each other, names that stay names.
import { renderPlotsPage } from '@ductwright/report/plots-page'
import { beforeAll, describe, expect, it } from 'vitest'
import { type Element, elementsOf, within } from './plots-markup.js'
import { plotsCurves, plotsSubject } from './plots-series.js'

const page = (curves = plotsCurves(), hostile = false) => renderPlotsPage({ subject: plotsSubject(hostile), curves })

let html = ''
let elements: Element[] = []
beforeAll(async () => {
  html = await page()
  elements = elementsOf(html)
})

const pictures = (among = elements) => among.filter(({ name }) => name === 'svg')
const textOf = (element: Element): string => element.text + element.children.map(textOf).join('')
const size = (svg: Element) => (svg.attributes['viewBox'] ?? '').split(' ').map(Number).slice(2) as [number, number]

/** Texts of a picture with the box each takes, about: 0.52 of the text size a letter. */
function boxes(svg: Element) {
  const seen = new Map<string, { text: string; left: number; right: number; top: number; bottom: number }>()
  for (const text of within(svg).filter(({ name, turned }) => name === 'text' && !turned)) {
    const high = Number.parseFloat(text.attributes['font-size'] ?? '')
    const wide = 0.52 * high * text.text.length
    const anchor = text.attributes['text-anchor'] ?? 'start'
    const left = text.x - (anchor === 'end' ? wide : anchor === 'middle' ? wide / 2 : 0)
    const box = { text: text.text, left, right: left + wide, top: text.y - 0.75 * high, bottom: text.y + 0.2 * high }
    // A label and its rim are one.
    seen.set(`${text.text} ${text.x} ${text.y}`, box)
  }
  return [...seen.values()]
}

describe('the page of charts', () => {
  it('needs nothing from outside and runs nothing', () => {
    const policy = elements.find(({ attributes }) => attributes['http-equiv'] === 'Content-Security-Policy')
    expect(policy?.attributes['content']).toBe(
      'default-src &#39;none&#39;; style-src &#39;unsafe-inline&#39;; img-src data:'.replaceAll('&#39;', "'"),
    )
    const names = new Set(elements.map(({ name }) => name))
    for (const name of ['script', 'link', 'image', 'img', 'use', 'a', 'iframe', 'foreignObject', 'animate']) {
      expect(names).not.toContain(name)
    }
    const attributes = new Set(elements.flatMap((element) => Object.keys(element.attributes)))
    expect([...attributes].filter((name) => /^on|href|^src|^action$/i.test(name))).toEqual([])
    expect(html.replaceAll('xmlns="http://www.w3.org/2000/svg"', '')).not.toMatch(/https?:|url\(|@import/)
  })

  it('has every chart, each said in words with its numbers', () => {
    const headings = elements.filter(({ name }) => name === 'h2').map(({ text }) => text)
    expect(headings).toEqual([
      'Thrust and drag',
      'Efflux and flight speed',
      'What is left of the standing thrust',
      'Temperatures through the flight',
      'What is left of each design load',
      'Where the drag comes from',
    ])
    expect(pictures().length).toBe(5 * 2 + 4)
    for (const { attributes } of pictures()) {
      expect(attributes['role']).toBe('img')
      expect(attributes['aria-label']).toMatch(/^(Line|Bar) chart of .*\d/)
    }
  })

  it('names quantity and unit on every axis that has numbers', () => {
    const titled = pictures().map((svg) =>
      within(svg)
        .map(({ text }) => text)
        .filter((text) => /^[a-z ]+, (km\/h|N|%|min|°C|cm²)$/.test(text)),
    )
    const speed = 'flight speed, km/h'
    const twice = (titles: string[]) => [titles, titles]
    expect(titled).toEqual([
      ...twice([speed, 'force, N']),
      ...twice([speed, 'speed, km/h']),
      ...twice([speed, 'part of the standing value, %']),
      ...Array.from({ length: 4 }, () => ['time, min', 'temperature, °C']),
      ...twice([speed, 'design load left, %']),
      ...twice(['drag area, cm²']),
    ])
  })

  it('keeps text at least 12 px high at the width each picture is made for', () => {
    for (const svg of pictures()) {
      const [width] = size(svg)
      expect([600, 312, 320]).toContain(width)
      const sizes = within(svg).flatMap(({ attributes }) => attributes['font-size'] ?? [])
      expect(sizes.length).toBeGreaterThan(3)
      expect(Math.min(...sizes.map(Number.parseFloat))).toBeGreaterThanOrEqual(12)
    }
  })

  it('puts no text over another or outside its picture, wherever the speed marks are', async () => {
    const close = elementsOf(await page(plotsCurves({ target_km_h: 409 })))
    const far = elementsOf(await page(plotsCurves({ target_km_h: 190 })))
    const across = elementsOf(await page(plotsCurves({ target_km_h: 20 })))
    const slow = elementsOf(await page(plotsCurves({ target_km_h: 30, allowed_km_h: 45 })))
    for (const svg of [elements, close, far, across, slow].flatMap((one) => pictures(one))) {
      const [width, height] = size(svg)
      const placed = boxes(svg)
      for (const [i, box] of placed.entries()) {
        expect([box.text, box.left >= -1, box.right <= width + 1, box.top >= -1, box.bottom <= height + 1]).toEqual([
          box.text,
          ...[true, true, true, true],
        ])
        const covered = placed
          .slice(i + 1)
          .filter(
            ({ left, right, top, bottom }) =>
              left < box.right && right > box.left && top < box.bottom && bottom > box.top,
          )
        expect([box.text, ...covered.map(({ text }) => text)]).toEqual([box.text])
      }
    }
  })

  it('tells the key numbers in plain words', () => {
    const words = textOf(elements.find(({ name }) => name === 'main') as Element).replaceAll('\u00a0', ' ')
    for (const fact of [
      'Thrust meets drag at 303 km/h with 70 % of the charge left, at 320 km/h with a full pack; the efflux would stop it at 430 km/h.',
      'The structure allows 412 km/h.',
      '30 % of the standing thrust is left, while the pack still gives 77 % of the standing power',
      'Least room is left in the packs: 15 °C below the limit.',
      'the narrowest margin is that of wing flutter: 35 % of the design load is left',
      'The terms add up to 34.6 cm². The area flown with here is 52.0 cm², as stated.',
      'not a clearance to fly',
    ]) {
      expect(words).toContain(fact)
    }
  })

  it('says so when something is over its limit or a flight ends early', async () => {
    const { heat, margins } = plotsCurves()
    const [hot, ...others] = heat?.lines ?? []
    const [flutter, ...rest] = margins.lines
    if (hot === undefined || flutter === undefined || heat === null) throw new Error('the made-up curves have no lines')
    const words = await page(
      plotsCurves({
        heat: { ...heat, ended_by: 'underpowered', lines: [{ ...hot, peak_c: 171.2 }, ...others] },
        margins: { wanted: 0, lines: [{ ...flutter, at_fastest: -0.123 }, ...rest] },
      }),
    )
    const plain = words.replaceAll('\u00a0', ' ')
    expect(plain).toContain('Too hot in the motor winding: 22 °C over the limit.')
    expect(plain).toContain('the packs are too weak to fly on')
    expect(plain).toContain('wing flutter: 13 % over the design load')
  })

  it('leaves out what is not known', async () => {
    const subject = plotsSubject()
    const bare = { ...subject, airframe: { ...subject.airframe, drag_terms: [] } }
    const curves = plotsCurves({ heat: null, allowed_km_h: null, target_km_h: null })
    const lean = await renderPlotsPage({ subject: bare, curves })
    expect(pictures(elementsOf(lean)).length).toBe(4 * 2)
    expect(lean).not.toMatch(/structure allows|wanted \d{3}|drag area/i)
  })

  it('keeps hostile names as text', async () => {
    const hostile = await page(plotsCurves(), true)
    const parsed = elementsOf(hostile)
    expect(new Set(parsed.map(({ name }) => name))).toEqual(new Set(elements.map(({ name }) => name)))
    const known = new Set(elements.flatMap(({ attributes }) => Object.keys(attributes)))
    expect(parsed.flatMap(({ attributes }) => Object.keys(attributes)).filter((name) => !known.has(name))).toEqual([])
    expect(hostile).toContain('&lt;script&gt;alert(1)&lt;/script&gt;')
    expect(hostile).not.toMatch(/(?!\n)[\p{Control}\u200f\u202a-\u202e\u2066-\u2069]/u)
  })

  it('is the same twice', async () => {
    expect(await page()).toBe(html)
  })
})
