// The charts of an answer: marks where the data say, axes with their units, alt texts with the figures of the answer, text
// that stays text and covers no other, and bytes that depend on the answer alone.
import { belowDesign, duration, figure, money, speedOf } from '@ductwright/contract/figures'
import type { Result } from '@ductwright/contract/result'
import { answerCharts } from '@ductwright/report/charts/answer-charts'
import { RASTER_OPTIONS } from '@ductwright/report/charts/rasterise'
import { colour } from '@ductwright/report/charts/theme'
import { Resvg } from '@resvg/resvg-js'
import { beforeAll, describe, expect, it } from 'vitest'
import { axisScale, chartOf, marks, type ReadChart, readCharts } from './charts-markup.js'
import { answer, hostileNames } from './fixture.js'

const IDS = ['speed-cost', 'staircase', 'trade-offs', 'thrust-drag', 'temperatures']
const WIDTHS = [600, 320] as const

let result: Result
let wide: readonly ReadChart[]
let narrow: readonly ReadChart[]
let hostile: readonly ReadChart[]
beforeAll(async () => {
  result = spreadOut(answer({ members: 8 }))
  wide = await readCharts(result)
  narrow = await readCharts(result, { width: 320 })
  hostile = await readCharts(spreadOut(named(answer({ members: 8, hostile: true }))), { width: 320 })
})

/** Every text that comes into a chart from outside, hostile. */
function named(plain: Result): Result {
  const hostileLines = <Line extends { words: string }>(lines: readonly Line[]) =>
    lines.map((line, at) => ({ ...line, words: hostileNames[at] ?? '' }))
  const picks = plain.picks.map((pick) => {
    const { heat } = pick.curves
    return { ...pick, curves: { ...pick.curves, heat: heat && { ...heat, lines: hostileLines(heat.lines) } } }
  })
  const knee = plain.knee && { ...plain.knee, why: hostileNames.slice(4, 8).join(' ') }
  return { ...plain, picks, knee, catalogue: { ...plain.catalogue, currency: '<i>\u202e&' } }
}

/** The fixture's setups lie on one line; here they differ in everything. */
function spreadOut(plain: Result): Result {
  const front = plain.front.map((member, at) => {
    const raw = {
      speed_km_h: 371 - 6.5 * at,
      cost: 940.5 - 71 * at,
      flight_time_s: 230 + 9 * at,
      margin: 0.118 + 0.03 * at,
    }
    return { ...member, raw }
  })
  const staircase = front.toReversed().map(({ rank, raw }, at) => {
    const { speed_km_h, cost, margin } = raw
    const before = front.toReversed()[at - 1]?.raw ?? { speed_km_h: 300, cost: 0 }
    return {
      rank,
      speed_km_h,
      cost,
      margin,
      more_km_h: speed_km_h - before.speed_km_h,
      more_cost: cost - before.cost,
      words: '',
    }
  })
  return { ...plain, front, staircase }
}

const spots = () => result.front.map(({ raw }) => raw)

describe('the charts of an answer', () => {
  it('come in the order of reading, laid out for the width asked for', () => {
    for (const [charts, width] of [
      [wide, 600],
      [narrow, 320],
    ] as const) {
      expect(charts.map(({ id }) => id)).toEqual(IDS)
      expect(charts.map((chart) => chart.width)).toEqual(IDS.map(() => width))
    }
  })

  it('are left out where an answer has nothing to draw', async () => {
    expect(await answerCharts(answer({ outcome: 'none' }))).toEqual([])
    const bare = answer({ members: 1 })
    const picks = bare.picks.map((pick) => ({ ...pick, curves: { ...pick.curves, heat: null } }))
    const ids = (await answerCharts({ ...bare, picks, staircase: [] })).map(({ id }) => id)
    expect(ids).toEqual(['speed-cost', 'thrust-drag'])
  })

  it('name quantity and unit on every axis', () => {
    const titles = {
      'speed-cost': ['to pay, EUR', 'level top speed, km/h'],
      staircase: ['to pay, EUR', 'level top speed, km/h'],
    }
    const others = { 'thrust-drag': ['flight speed, km/h', 'force, N'], temperatures: ['time, min', 'temperature, °C'] }
    for (const charts of [wide, narrow]) {
      for (const [id, wanted] of Object.entries({ ...titles, ...others })) {
        const drawn = chartOf(charts, id).elements.map(({ text }) => text)
        for (const title of wanted) expect(drawn).toContain(title)
      }
      const rows = chartOf(charts, 'trade-offs').texts.map(({ text }) => text)
      for (const row of ['speed,', 'km/h', 'flight time,', 'min', 'to pay,', 'EUR', 'below design', 'load, %']) {
        expect(rows).toContain(row)
      }
    }
  })

  it('keep text at least 12 px high', () => {
    for (const { elements } of [...wide, ...narrow]) {
      const sizes = elements.flatMap(({ attributes }) => attributes['font-size'] ?? []).map(Number.parseFloat)
      expect(sizes.length).toBeGreaterThan(5)
      expect(Math.min(...sizes)).toBeGreaterThanOrEqual(12)
    }
  })
})

describe('marks', () => {
  it('of speed against cost stand where cost and speed say, one for each setup', () => {
    for (const charts of [wide, narrow]) {
      const chart = chartOf(charts, 'speed-cost')
      const [x, y] = [axisScale(chart, 'x'), axisScale(chart, 'y')]
      const drawn = marks(chart, 'stroke', colour('shade4'))
      const bottom = y(Math.max(...spots().map(({ speed_km_h }) => speed_km_h))) - 30
      const inside = drawn.filter((mark) => mark.y > bottom)
      expect(inside.length).toBe(result.front.length)
      for (const { cost, speed_km_h } of spots()) {
        expect(inside.some((mark) => near(mark, { x: x(cost), y: y(speed_km_h) + TICK_DROP(chart) }))).toBe(true)
      }
    }
  })

  it('of a step lie on the stairs at its cost and speed', () => {
    const chart = chartOf(wide, 'staircase')
    const [x, y] = [axisScale(chart, 'x'), axisScale(chart, 'y')]
    const drawn = marks(chart, 'fill', colour('accent'))
    expect(drawn.length).toBe(result.staircase.length)
    for (const { cost, speed_km_h } of result.staircase) {
      expect(drawn.some((mark) => near(mark, { x: x(cost), y: y(speed_km_h) + TICK_DROP(chart) }))).toBe(true)
    }
  })

  it('of trade-offs are one line for each setup', () => {
    const chart = chartOf(wide, 'trade-offs')
    const picked = new Set(result.picks.map(({ rank }) => rank)).size
    expect(marks(chart, 'stroke', colour('faint')).length).toBe(result.front.length - picked)
    expect(marks(chart, 'stroke', colour('accent')).length).toBe(1)
  })

  it('say which setups are the picks, where the target is and where the efflux ends it', () => {
    for (const charts of [wide, narrow]) {
      const texts = (id: string) =>
        chartOf(charts, id)
          .texts.map(({ text }) => text)
          .join(' ')
      for (const name of ['best all round', 'best for the money', 'safest', 'fastest']) {
        expect(texts('speed-cost')).toContain(name)
        expect(texts('trade-offs')).toContain(name)
      }
      const wanted = `wanted ${speedOf(result.understood.target.speed)}`
      for (const id of ['speed-cost', 'staircase', 'thrust-drag']) expect(texts(id)).toContain(wanted)
      expect(texts('staircase')).toContain('dearer')
      const ceiling = result.picks[0]?.curves.ceiling.speed_km_h ?? 0
      expect(texts('thrust-drag')).toContain(`efflux ceiling ${figure('speed', ceiling)}`)
    }
  })
})

describe('alt texts', () => {
  const alt = (id: string) => chartOf(wide, id).alt

  it('carry the figures of the answer as the letter writes them', () => {
    const { currency } = result.catalogue
    for (const id of ['speed-cost', 'trade-offs']) {
      for (const pick of result.picks) {
        const raw = result.front.find(({ rank }) => rank === pick.rank)?.raw
        if (raw === undefined) throw new Error('a pick is not in the front')
        const price = `${money(raw.cost, currency)} to pay`
        const words = [figure('speed', raw.speed_km_h), duration(raw.flight_time_s), price, belowDesign(raw.margin)]
        expect(alt(id)).toContain(words.join(', '))
      }
    }
    for (const { speed_km_h, cost, margin } of result.staircase) {
      const words = `${figure('speed', speed_km_h)} for ${money(cost, currency)}, ${belowDesign(margin)}`
      expect(alt('staircase')).toContain(words)
    }
    expect(alt('speed-cost')).toContain(`Wanted: ${speedOf(result.understood.target.speed)}`)
  })

  it('of curves carry where they meet and how hot it gets', () => {
    const { curves } = result.picks[0] as Result['picks'][number]
    for (const at of [curves.top, curves.top_full, curves.ceiling]) {
      expect(alt('thrust-drag')).toContain(figure('speed', at.speed_km_h))
    }
    const left = `with ${figure('percent', 100 * curves.charge)} of the charge left`
    const [quoted, full] = [curves.standing, curves.standing_full].map(({ thrust_n }) => figure('force', thrust_n))
    expect(alt('thrust-drag')).toContain(`Standing, ${left}, the fan pulls ${quoted}, with a full pack ${full};`)
    for (const { words, peak_c, limit_c } of curves.heat?.lines ?? []) {
      const figures = `peak ${figure('temperature', peak_c)}, limit ${figure('temperature', limit_c)}`
      expect(alt('temperatures')).toContain(`${words}: ${figures}`)
    }
  })

  it('stand in the picture itself as well', () => {
    for (const { elements, alt: said } of wide) {
      expect(elements[0]?.attributes['role']).toBe('img')
      expect(elements[0]?.attributes['aria-label']).toBe(said.replaceAll('&', '&amp;'))
    }
  })
})

describe('the text of a chart', () => {
  it('covers no other text and stays inside, as wide as the typeface of the picture makes it', () => {
    for (const chart of [...wide, ...narrow, ...hostile]) {
      const boxes = chart.texts.map((text) => boxOf(text))
      for (const [i, box] of boxes.entries()) {
        const inside = [box.left > -0.5, box.right < chart.width + 0.5, box.top > -0.5, box.bottom < chart.height + 0.5]
        expect([chart.id, box.text, ...inside]).toEqual([chart.id, box.text, true, true, true, true])
        const covered = boxes.slice(i + 1).filter((other) => overlap(box, other))
        expect([chart.id, box.text, ...covered.map(({ text }) => text)]).toEqual([chart.id, box.text])
      }
    }
  })

  it('is inert whatever the names are', () => {
    const known = new Set(wide.flatMap(({ elements }) => elements.map(({ name }) => name)))
    for (const { svg, elements } of hostile) {
      expect(elements.filter(({ name }) => !known.has(name))).toEqual([])
      expect(svg).not.toMatch(/[\p{Control}\u200f\u202a-\u202e\u2066-\u2069]/u)
    }
    expect(chartOf(hostile, 'temperatures').svg).toContain('&lt;script&gt;alert(1)&lt;')
    expect(chartOf(hostile, 'speed-cost').svg).toContain('to pay, &lt;i&gt;\ufffd&amp;')
    expect(chartOf(hostile, 'staircase').alt).toContain('Line Bcc: other@evil.example body')
  })
})

describe('the markup of a chart', () => {
  it('holds nothing that a strict policy forbids or that could clash with another chart', () => {
    const names = new Set(['svg', 'g', 'path', 'line', 'text'])
    const plain =
      /^(?:xmlns|role|aria-label|viewBox|transform|d|x|y|x2|y2|fill|opacity|stroke|font-family|font-size|font-weight|text-anchor|(?:fill|stroke)-[a-z]+)$/
    for (const { elements, svg } of [...wide, ...narrow, ...hostile]) {
      expect(elements.map(({ name }) => name).filter((name) => !names.has(name))).toEqual([])
      expect(elements.flatMap(({ attributes }) => Object.keys(attributes)).filter((name) => !plain.test(name))).toEqual(
        [],
      )
      expect(svg.replace(/aria-label="[^"]*"|xmlns="[^"]*"|>[^<]*</g, '')).not.toMatch(/url\(|https?:|javascript:/)
    }
  })

  it('is the same for the same answer, whatever was drawn before', async () => {
    for (const width of WIDTHS) {
      const again = await answerCharts(JSON.parse(JSON.stringify(result)), { width })
      expect(again.map(({ svg }) => svg)).toEqual((width === 600 ? wide : narrow).map(({ svg }) => svg))
    }
  })
})

/** A number of an axis stands below the middle of what it names by this much: its baseline is not its middle. */
const TICK_DROP = ({ texts }: ReadChart) => -0.3 * Number.parseFloat(texts[0]?.attributes['font-size'] ?? '')

function near(
  mark: { readonly x: number; readonly y: number },
  place: { readonly x: number; readonly y: number },
): boolean {
  return Math.abs(mark.x - place.x) < 1 && Math.abs(mark.y - place.y) < 1.5
}

const measured = new Map<string, number>()

function widthOf(text: string, bold: boolean): number {
  const key = `${bold} ${text}`
  const known = measured.get(key)
  if (known !== undefined) return known
  const safe = text.replaceAll('&', '&amp;').replaceAll('<', '&lt;')
  const weight = bold ? ' font-weight="bold"' : ''
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 900 40"><text y="20" font-size="13"${weight}>${safe}</text></svg>`
  const width = new Resvg(svg, RASTER_OPTIONS).getBBox()?.width ?? 0
  measured.set(key, width)
  return width
}

function boxOf({ text, x, y, attributes }: ReadChart['texts'][number]) {
  const high = Number.parseFloat(attributes['font-size'] ?? '')
  const wide = widthOf(text, attributes['font-weight'] === 'bold')
  const anchor = attributes['text-anchor'] ?? 'start'
  const left = x - (anchor === 'end' ? wide : anchor === 'middle' ? wide / 2 : 0)
  return { text, left, right: left + wide, top: y - 0.76 * high, bottom: y + 0.2 * high }
}

type Box = ReturnType<typeof boxOf>

function overlap(a: Box, b: Box): boolean {
  return b.left < a.right && b.right > a.left && b.top < a.bottom && b.bottom > a.top
}
