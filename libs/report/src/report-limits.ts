// How near one setup comes to what its airframe and its parts stand, for its report: loads by criterion with the speed
// each allows, temperatures, and every limit with the odds of holding it.
import { belowDesign, figure, odds, percent, range, reserve, used } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { LimitUse, SetupFigures, SetupStudy } from '@ductwright/contract/result'
import type { SetupReport } from '@ductwright/contract/setup'
import { allowedBy } from './airframe-words.js'
import { bandedPairs, bandOf, beside, bracketed, type Row } from './banded.js'
import type { Block, GridColumn, Section } from './letter.js'
import { breaksFirst, limitSentence, structureSentence } from './performance.js'

const heat: readonly Row<SetupFigures['temperatures']>[] = [
  ['Motor winding', 'winding_c', 'temperature'],
  ['Motor case', 'case_c', 'temperature'],
  ['Speed controller', 'esc_c', 'temperature'],
  ['Pack', 'pack_c', 'temperature'],
]

export function limitSections(report: SetupReport, figures: SetupFigures): Section[] {
  const { study, understood } = report
  return [
    structureSection(report, figures),
    {
      heading: 'Temperatures at their highest',
      blocks: [{ kind: 'pairs', pairs: bandedPairs(heat, figures.temperatures, 'temperatures.', study) }],
    },
    {
      heading: 'Limits used',
      blocks: [
        {
          kind: 'paragraph',
          text: `${limitSentence(figures)}${headroomWords(figures.headroom, understood.limits.headroom)}`,
        },
        limitGrid(figures, study),
        { kind: 'paragraph', text: `Breaks first: ${breaksFirst(figures)}.` },
      ],
    },
  ]
}

function headroomWords(headroom: number, wanted: number): string {
  return headroom < wanted ? ` That is less than the ${percent(wanted)} you want kept free.` : ''
}

function columnsOf(...titles: readonly string[]): GridColumn[] {
  return titles.map((title, at) => ({ title, align: at === 0 ? 'left' : 'right' }))
}

function structureSection(report: SetupReport, figures: SetupFigures): Section {
  const { study, airframe } = report
  const allowed = beside(study, 'speed_allowed_km_h', 'speed', figures.speed_allowed_km_h)
  const fastest = beside(study, 'speed_fastest_km_h', 'speed', figures.speed_fastest_km_h)
  const least = `${belowDesign(figures.margin)}${bracketed(study, 'margin', 'percent', 100)}`
  return {
    heading: 'Airframe',
    blocks: [
      { kind: 'paragraph', text: structureSentence(figures) },
      {
        kind: 'pairs',
        pairs: [
          { label: 'Distance to the design load', value: least },
          { label: 'Highest speed the structure allows', value: `${allowed}, by ${allowedBy(figures, airframe)}` },
          { label: 'Fastest it will fly, level or out of the dive', value: fastest },
        ],
      },
      marginGrid(report, figures),
    ],
  }
}

function marginGrid({ study, airframe }: SetupReport, figures: SetupFigures): Block {
  const speeds = new Map(airframe.speed_limits.map((limit) => [limit.criterion, limit.speed_km_h]))
  const speed = (criterion: string) => (speeds.has(criterion) ? figure('speed', speeds.get(criterion) ?? null) : '')
  return {
    kind: 'grid',
    columns: columnsOf('Judged by', 'left of the design load', '5 to 95 %', 'allows up to'),
    rows: figures.margins.map(({ criterion, words, margin }) => [
      inert(words, 120),
      reserve(margin),
      bandCell(study, `margins.${criterion}`),
      speed(criterion),
    ]),
  }
}

function bandCell(study: SetupStudy | null, path: string): string {
  const band = bandOf(study, path)
  return band === null ? '' : range('percent', band[0] * 100, band[1] * 100)
}

/** Every limit, the most used first; those that the study alone has met stand behind. */
function limitGrid(figures: SetupFigures, study: SetupStudy | null): Block {
  const known = [...figures.limits].sort((a, b) => b.used - a.used || (a.limit < b.limit ? -1 : 1))
  const met = (study?.holds ?? []).filter(({ limit }) => !known.some((one) => one.limit === limit))
  return {
    kind: 'grid',
    columns: columnsOf('Limit', 'used', '5 to 95 %', 'odds of holding'),
    rows: [
      ...known.map((limit) => limitRow(limit, study)),
      ...met.map(({ words, odds: chance }) => [inert(words, 120), '', '', odds(chance)]),
    ],
  }
}

function limitRow({ limit, words, used: share }: LimitUse, study: SetupStudy | null): string[] {
  return [inert(words, 120), used(share), bandCell(study, `limits.${limit}`), holding(limit, study)]
}

/** A limit that the study does not doubt held in every case. */
function holding(limit: string, study: SetupStudy | null): string {
  if (study === null) return ''
  const doubted = study.holds.find((one) => one.limit === limit)
  if (doubted !== undefined) return odds(doubted.odds)
  return bandOf(study, `limits.${limit}`) === null ? '' : odds(1)
}
