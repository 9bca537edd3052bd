// `bench-fit`: fits the characteristic of a fan from standing measurements and prints its row with what is known of it.
import type { BenchPointFigures, BenchReport } from '@ductwright/contract/bench-report'
import { parseBench } from '@ductwright/contract/bench-request'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import { bare } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import { fitBench } from '@ductwright/pipeline/fit-bench'
import type { Block, Section } from '@ductwright/report/letter'
import { sectionsText, softened, wrap } from '@ductwright/report/plain'
import { Command } from 'commander'
import { catalogueFrom } from './catalogue-folder.js'
import { DONE, NO_ANSWER } from './exit-codes.js'
import { readJson } from './json-input.js'

interface BenchOptions {
  readonly catalogue?: string
  readonly json?: boolean
}

const WIDTH = 100

export function benchCommand(): Command {
  return new Command('bench-fit')
    .description('Fit a fan from standing measurements.')
    .argument('<measurements>', 'JSON file with the measurements, or - for standard input')
    .option('--catalogue <folder>', 'catalogue to take fan and motor from (default: the demonstration catalogue)')
    .option('--json', 'print the report as canonical JSON, and nothing else, on standard output')
    .action(async (path: string, options: BenchOptions) => {
      const request = parseBench(await readJson(path))
      const report = fitBench(request, await catalogueFrom(options.catalogue))
      process.stdout.write(options.json === true ? `${canonicalJson(report)}\n` : renderBench(report))
      process.exitCode = report.refused.length > 0 ? NO_ANSWER : DONE
    })
}

function renderBench(report: BenchReport): string {
  const title = wrap(`${inert(report.understood.title, 120)}: ${inert(report.fan.name, 80)}`, WIDTH)
  const worked = report.row === null ? [] : [...fitted(report), readings(report)]
  const sections = [
    ...(report.refused.length > 0
      ? [
          list(
            'No fan can be given',
            report.refused.map(({ words }) => words),
          ),
        ]
      : []),
    ...worked,
    list('Held, and with what doubt', report.held),
    list('Assumed', report.assumptions),
    list('On the bench', report.cautions),
  ]
  const foot = `Catalogue ${inert(report.catalogue.name, 80)}, version ${inert(report.catalogue.version, 80)}. Models ${inert(report.model_version, 40)}.`
  return `${softened(title.join('\n'))}\n${sectionsText(sections, WIDTH)}\n\n${wrap(foot, WIDTH).join('\n')}\n`
}

function fitted(report: BenchReport): Section[] {
  const pairs = Object.entries(report.row ?? {}).map(([label, value]) => ({ label, value: String(value) }))
  const doubts = [...report.comparison, ...report.doubts]
  return [
    { heading: 'The fan', blocks: [estimateGrid(report), { kind: 'paragraph', text: report.agreement?.words ?? '' }] },
    { heading: 'Cells for a table of fans', blocks: [{ kind: 'pairs', pairs }] },
    ...(doubts.length > 0 ? [list('Against the catalogue', doubts)] : []),
  ]
}

function estimateGrid({ estimates }: BenchReport): Block {
  return {
    kind: 'grid',
    columns: ['', 'value', 'standard uncertainty', '5 %', '95 %', 'listed', 'comes from'].map((head, at) => ({
      title: head,
      align: at === 0 ? 'left' : 'right',
    })),
    rows: estimates.map(({ column, value, standard_uncertainty, low, high, listed, origin }) => {
      const quantity = column === 'peak_efficiency_percent' ? 'loadFactor' : 'coefficient'
      const numbers = [value, standard_uncertainty, low, high].map((number) => bare(quantity, number))
      return [column, ...numbers, listed === null ? 'none' : bare(quantity, listed), ORIGINS[origin]]
    }),
  }
}

const ORIGINS = { measured: 'readings', held: 'held value', both: 'both' } as const

function readings(report: BenchReport): Section {
  const heads = ['point', 'nozzle', 'rpm', 'thrust N', 'current A', 'shaft W', 'efficiency', 'largest deviation']
  return {
    heading: 'Readings against the fit',
    blocks: [
      {
        kind: 'grid',
        columns: heads.map((title) => ({ title, align: 'right' })),
        rows: report.points.map((point, i) => [
          String(i + 1),
          bare('ratio', point.nozzle_ratio),
          bare('rotation', point.shaft_rpm),
          bare('force', point.thrust_n),
          point.current_a === null ? 'none' : bare('current', point.current_a),
          bare('power', point.shaft_power_w),
          bare('coefficient', point.fan_efficiency),
          largest(point),
        ]),
      },
      {
        kind: 'paragraph',
        text: 'Figures are the fit’s; a deviation is that of a reading from all others, in standard deviations. Above 4 nothing is fitted.',
      },
    ],
  }
}

function largest({ readings: checks }: BenchPointFigures): string {
  const checked = checks.flatMap(({ reading, deviation }) => (deviation === null ? [] : [{ reading, deviation }]))
  const [worst] = checked.sort((a, b) => Math.abs(b.deviation) - Math.abs(a.deviation))
  return worst === undefined ? 'none checks it' : `${worst.reading} ${bare('loadFactor', worst.deviation)}`
}

function list(heading: string, items: readonly string[]): Section {
  return { heading, blocks: [{ kind: 'list', items: items.map((words) => inert(words, Number.POSITIVE_INFINITY)) }] }
}
