// Nothing that was worked out stays unsaid: each number and sentence of a report is changed in turn, and the print must
// change with it, on a line that carries the unit.
import type { SetupReport } from '@ductwright/contract/setup'
import { renderSetupReport } from '@ductwright/report/setup-report'
import { describe, expect, it } from 'vitest'
import { setupReport } from './fixture.js'

type Path = readonly (string | number)[]
type Node = Record<string | number, unknown>

const report = setupReport()
const lines = new Set(renderSetupReport(report).split('\n'))

/** Keys for programs; people read the words beside them. */
const forPrograms = new Set(['id', 'kind', 'term', 'input', 'limit', 'criterion'])

/** Paths to everything of a type below a node. */
function leaves(node: unknown, type: 'number' | 'string', path: Path = []): Path[] {
  if (typeof node === type) return [path]
  if (node === null || typeof node !== 'object') return []
  const steps: [string | number, unknown][] = Array.isArray(node) ? [...node.entries()] : Object.entries(node)
  return steps.flatMap(([key, inner]) => leaves(inner, type, [...path, key]))
}

/** The lines that are new when one value is changed. */
function told(path: Path, change: (value: unknown) => unknown): string[] {
  const changed = structuredClone(report) as unknown as Node
  const holder = path.slice(0, -1).reduce<Node>((node, key) => node[key] as Node, changed)
  const last = path.at(-1)!
  holder[last] = change(holder[last])
  return renderSetupReport(changed as unknown as SetupReport)
    .split('\n')
    .filter((line) => !lines.has(line))
}

// Far enough to show whatever the rounding; odds stay odds.
const further = (value: unknown) => (value as number) * 3 + 11.7
const otherOdds = (value: unknown) => ((value as number) > 0.5 ? 0.23 : 0.77)
const isOdds = (path: Path) => ['odds', 'reaches_target', 'flies'].includes(String(path.at(-1)))

const units: readonly (readonly [suffix: RegExp, unit: RegExp])[] = [
  [/_km_h$/, /km\/h/],
  [/_m_s$/, /m\/s/],
  [/_rpm$/, /rpm/],
  [/_kg$/, /\d (kg|g)\b/],
  [/_mm$/, /mm/],
  [/_m$/, /\d m\b/],
  [/_n$/, /\d N\b/],
  [/_mah$/, /mAh/],
  [/_a$/, /\d A\b/],
  [/_v$/, /\d V\b/],
  [/_w$/, /\d W\b/],
  [/_s$/, /\bmin\b|\d s\b/],
  [/_c$/, /°C/],
  [/(efficiency|duty|margin|used|headroom|power|drag_area|mass)$/, /%/],
]

describe('every figure of a setup', () => {
  const numbers = leaves(report.figures, 'number', ['figures'])

  it('is among those tested', () => {
    expect(numbers.length).toBeGreaterThan(140)
    expect(numbers.map(String)).toContain('figures,top_last,thrust_n')
  })

  it('is printed on a line with its unit', () => {
    const unsaid = numbers
      .map((path) => path.join('.'))
      .filter((name, at) => {
        const unit = units.find(([suffix]) => suffix.test(name))?.[1] ?? /./
        return !told(numbers[at]!, further).some((line) => unit.test(line))
      })
    expect(unsaid).toEqual([])
  })

  const bands = leaves(report.study!.bands, 'number', ['study', 'bands'])

  it('has both ends of its band printed', () => {
    expect(bands.length).toBeGreaterThan(270)
    expect(bands.filter((path) => told(path, further).length === 0).map(String)).toEqual([])
  })
})

describe('everything else that was worked out', () => {
  const { bands: _, ...study } = report.study!
  const places: [Path, unknown][] = [
    [['study'], study],
    [['airframe'], report.airframe],
    [['air'], report.air],
  ]

  it('is printed, numbers', () => {
    const numbers = places.flatMap(([place, node]) => leaves(node, 'number', place))
    expect(numbers.length).toBeGreaterThan(140)
    const silent = numbers.filter((path) => told(path, isOdds(path) ? otherOdds : further).length === 0)
    expect(silent.map(String)).toEqual([])
  })

  it('is printed, words', () => {
    const words = [...places, [['figures'], report.figures] as [Path, unknown]]
      .flatMap(([place, node]) => leaves(node, 'string', place))
      .filter((path) => !forPrograms.has(String(path.at(-1))))
      // The table of phases goes by their short names, a limit by its name among the limits used.
      .filter((path) => !((path.includes('phases') || path.includes('holds')) && path.at(-1) === 'words'))
      .filter((path) => path.at(-1) !== 'ended_by' && path.at(-1) !== 'drag_basis')
    expect(words.length).toBeGreaterThan(30)
    expect(words.filter((path) => told(path, (value) => `${value} zz`).length === 0).map(String)).toEqual([])
    expect(told(['study', 'flight', 'ended_by'], () => 'charge')).not.toEqual([])
    expect(told(['airframe', 'drag_basis'], () => 'stated')).not.toEqual([])
  })
})
