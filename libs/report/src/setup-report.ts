// One setup worked through, for a terminal: every intermediate quantity at the five operating points, what is lost, how
// hot it gets, how far the airframe and each part are from their limits, what it costs and what all of it rests on.

import { bare, belowDesign, figure, percent, type Quantity, unitOf } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { PointFigures, SetupFigures } from '@ductwright/contract/result'
import type { SetupReport } from '@ductwright/contract/setup'
import type { Block, Pair, Section } from './letter.js'
import {
  breaksFirst,
  limitBars,
  limitSentence,
  performance,
  sensitivitySentence,
  structureSentence,
} from './performance.js'
import { sectionsText, softened, wrap } from './plain.js'
import { cautionsSection } from './section-basis.js'
import { partsLine, settings } from './setup-words.js'
import { costSentence, shoppingGrid } from './shopping.js'

const width = 100

const points = [
  ['standing', 'standing'],
  ['top, full', 'top_full'],
  ['top, quoted', 'top'],
  ['last pass', 'top_last'],
  ['cruise', 'cruise'],
] as const satisfies readonly (readonly [string, keyof SetupFigures])[]

type Row = readonly [string, Quantity, (point: PointFigures) => number]

const operating: readonly Row[] = [
  ['Air speed', 'speed', (point) => point.speed_km_h],
  ['Throttle', 'percent', (point) => point.duty * 100],
  ['Shaft', 'rotation', (point) => point.shaft_rpm],
  ['Blade tip Mach number', 'ratio', (point) => point.tip_mach],
  ['Advance ratio', 'coefficient', (point) => point.advance_ratio],
  ['Flow coefficient', 'coefficient', (point) => point.flow_coefficient],
  ['Efflux', 'efflux', (point) => point.efflux_m_s],
  ['Thrust', 'force', (point) => point.thrust_n],
  ['Drag', 'force', (point) => point.drag_n],
  ['Motor current', 'current', (point) => point.motor_current_a],
  ['Pack current', 'current', (point) => point.pack_current_a],
  ['Pack voltage', 'voltage', (point) => point.pack_voltage_v],
  ['Motor voltage', 'voltage', (point) => point.motor_voltage_v],
]

const losses: readonly Row[] = [
  ['Power from the packs', 'power', (point) => point.pack_power_w],
  ['Lost in the speed controller', 'power', (point) => point.esc_loss_w],
  ['Lost in the motor', 'power', (point) => point.motor_loss_w],
  ['Power at the shaft', 'power', (point) => point.shaft_power_w],
  ['Motor efficiency', 'percent', (point) => point.motor_efficiency * 100],
  ['Fan efficiency', 'percent', (point) => point.fan_efficiency * 100],
  ['Froude efficiency', 'percent', (point) => point.froude_efficiency * 100],
  ['Propulsive efficiency', 'percent', (point) => point.propulsive_efficiency * 100],
]

export function renderSetupReport(report: SetupReport): string {
  const title = wrap(`${inert(report.understood.title, 120)}: ${inert(report.airframe.name, 80)}`, width)
  const sections = report.figures === null ? [refusedSection(report)] : worked(report, report.figures)
  const ground = [costSection(report), assumedSection(report), cautionsSection(report.cautions)]
  const foot = `Catalogue ${inert(report.catalogue.name, 80)}, version ${inert(report.catalogue.version, 80)}. Models ${inert(report.model_version, 40)}.`
  const head = softened([...title, ...wrap(partsLine(report.understood.setup, report.names), width)].join('\n'))
  return `${head}\n${sectionsText([...sections, ...ground], width)}\n\n${wrap(foot, width).join('\n')}\n`
}

function refusedSection(report: SetupReport): Section {
  return {
    heading: 'This setup cannot be built or flown',
    blocks: [{ kind: 'list', items: report.refused.map((refusal) => inert(refusal.words)) }],
  }
}

function worked(report: SetupReport, figures: SetupFigures): Section[] {
  return [
    { heading: 'Set to', blocks: [{ kind: 'pairs', pairs: settings(report.understood.setup, figures) }] },
    { heading: 'Operating points', blocks: [pointGrid(figures, operating)] },
    { heading: 'Where the power goes', blocks: [pointGrid(figures, losses)] },
    {
      heading: 'What it does',
      blocks: [{ kind: 'pairs', pairs: [...performance(figures, report.understood), ...more(figures)] }],
    },
    ...limits(figures, report.understood.limits.headroom),
  ]
}

function pointGrid(figures: SetupFigures, rows: readonly Row[]): Block {
  const heads = ['', 'unit', ...points.map(([title]) => title)]
  return {
    kind: 'grid',
    columns: heads.map((title, at) => ({ title, align: at < 2 ? 'left' : 'right' })),
    rows: rows.map(([label, quantity, read]) => [
      label,
      unitOf(quantity),
      ...points.map(([, key]) => cell(quantity, read, figures[key])),
    ]),
  }
}

function cell(quantity: Quantity, read: Row[2], point: PointFigures | null): string {
  return point === null ? 'none' : bare(quantity, read(point))
}

function more(figures: SetupFigures): Pair[] {
  return [
    { label: 'Efflux allows at most', value: figure('speed', figures.efflux_ceiling_km_h) },
    { label: 'Holds the speed back', value: inert(figures.binds, 300) },
    { label: 'Slopes', value: sensitivitySentence(figures) },
    { label: 'Balances close to', value: `${residual(figures.residual)} of their size` },
  ]
}

function residual(value: number): string {
  return Number.isFinite(value) ? value.toExponential(0).replace('e', ' × 10^') : 'not known'
}

function limits(figures: SetupFigures, wanted: number): Section[] {
  const margins = figures.margins.map((margin) => ({
    label: inert(margin.words, 120),
    value: belowDesign(margin.margin),
  }))
  return [
    {
      heading: 'Airframe loads',
      blocks: [
        { kind: 'paragraph', text: structureSentence(figures) },
        { kind: 'pairs', pairs: margins },
      ],
    },
    {
      heading: 'Limits used',
      blocks: [
        { kind: 'paragraph', text: `${limitSentence(figures)}${headroomWords(figures.headroom, wanted)}` },
        { kind: 'bars', bars: limitBars(figures.limits) },
        { kind: 'paragraph', text: `Breaks first: ${breaksFirst(figures)}.` },
      ],
    },
  ]
}

function headroomWords(headroom: number, wanted: number): string {
  return headroom < wanted ? ` That is less than the ${percent(wanted)} you want kept free.` : ''
}

function costSection(report: SetupReport): Section {
  const { shopping, cost, replacement_cost, catalogue } = report
  const sentence = costSentence(cost, replacement_cost, catalogue.currency)
  const list: Block[] = shopping.length === 0 ? [] : [shoppingGrid(shopping, catalogue.currency)]
  return { heading: 'Cost', blocks: [...list, { kind: 'paragraph', text: sentence }] }
}

function assumedSection(report: SetupReport): Section {
  return { heading: 'Assumed', blocks: [{ kind: 'list', items: report.assumptions.map((words) => inert(words)) }] }
}
