// The airframe in words: where its drag comes from, what has been done about it, and the highest speed it allows.
import { amountOf, bare, figure, money } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { AirFigures, AirframeFigures, SetupFigures } from '@ductwright/contract/result'
import type { Block, Pair } from './letter.js'

const bases: Readonly<Record<AirframeFigures['drag_basis'], string>> = {
  measured: 'solved from the speed you measured',
  stated: 'as stated for the airframe',
  'built-up': 'built up from the geometry of the airframe',
}

const squareCentimetres = (area: number) => figure('dragArea', area * 1e4)

/** The drag area that counts and where it comes from. */
export function dragSentence(airframe: AirframeFigures): string {
  const { drag_area_m2: area, drag_basis: basis, drag_terms: terms, treatments } = airframe
  const done = treatments.length === 0 ? '' : ', less what clean-up work took off'
  return `Drag area ${squareCentimetres(area)}, ${bases[basis]}${done}.${sumWords(area, terms)}`
}

const sumOf = (terms: AirframeFigures['drag_terms']) => terms.reduce((sum, { area_m2 }) => sum + area_m2, 0)

/** A build-up that does not meet the area that counts is said to. */
function sumWords(area: number, terms: AirframeFigures['drag_terms']): string {
  const sum = sumOf(terms)
  if (terms.length === 0 || Math.abs(sum - area) <= 0.005 * area) return ''
  return ` Its geometry adds up to ${squareCentimetres(sum)}: the shares below tell what it is made of, not how much it is.`
}

/** What the drag is made of, the largest first; none when the geometry is not known. */
export function dragBlocks({ drag_terms: terms }: AirframeFigures): Block[] {
  const sum = sumOf(terms)
  if (!(sum > 0)) return []
  const ordered = terms.filter(({ area_m2 }) => area_m2 > 0).sort((a, b) => b.area_m2 - a.area_m2)
  return [
    {
      kind: 'grid',
      columns: [
        { title: 'Drag from', align: 'left' },
        { title: 'cm²', align: 'right' },
        { title: 'share, %', align: 'right' },
      ],
      rows: ordered.map(({ words, area_m2 }) => [
        inert(words, 120),
        bare('dragArea', area_m2 * 1e4),
        bare('percent', (100 * area_m2) / sum),
      ]),
    },
  ]
}

/** Clean-up work counted as done, with what it takes; none when nothing is. */
export function doneBlocks({ treatments }: AirframeFigures, currency: string): Block[] {
  if (treatments.length === 0) return []
  return [
    {
      kind: 'grid',
      columns: [
        { title: 'Clean-up work counted as done', align: 'left' },
        { title: inert(currency, 8), align: 'right' },
        { title: 'h', align: 'right' },
        { title: 'g', align: 'right' },
      ],
      rows: treatments.map((work) => [
        inert(work.words, 120),
        amountOf(work.price),
        bare('hours', work.hours),
        bare('smallMass', work.mass_g),
      ]),
    },
  ]
}

/** What that work comes to. */
export function doneWords({ treatments }: AirframeFigures, currency: string): string {
  const sum = (read: (work: (typeof treatments)[number]) => number) =>
    treatments.reduce((all, one) => all + read(one), 0)
  const together = `${money(
    sum((work) => work.price),
    currency,
  )} and ${figure(
    'hours',
    sum((work) => work.hours),
  )}`
  return `${treatments.map(({ words }) => inert(words, 120)).join('; ')}: ${together}`
}

/** The lowest of the speeds that the structure allows; undefined when nothing is known of it. */
export function allowedSpeed({
  speed_limits: limits,
}: AirframeFigures): AirframeFigures['speed_limits'][number] | undefined {
  return [...limits].sort((a, b) => a.speed_km_h - b.speed_km_h)[0]
}

/** What sets the allowed speed of a setup, in words. */
export function allowedBy(figures: SetupFigures, airframe: AirframeFigures): string {
  const by = figures.speed_allowed_by
  if (by === null) return 'nothing is known of the structure'
  const known = [...airframe.speed_limits, ...figures.margins].find(({ criterion }) => criterion === by)
  return inert(known?.words ?? by, 120)
}

/** Allowed speeds by criterion, the lowest first. */
export function speedLimitPairs({ speed_limits: limits }: AirframeFigures): Pair[] {
  return [...limits]
    .sort((a, b) => a.speed_km_h - b.speed_km_h)
    .map(({ words, speed_km_h: speed }) => ({ label: inert(words, 120), value: figure('speed', speed) }))
}

/** The air over the field in one phrase. */
export function airWords(air: AirFigures): string {
  const weather = `${figure('temperature', air.temperature_c)}, ${figure('pressure', air.pressure_hpa)}`
  return `${figure('distance', air.elevation_m)} above the sea, ${weather}, ${figure('density', air.density_kg_m3)}`
}
