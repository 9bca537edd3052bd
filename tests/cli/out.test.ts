// `sweep --out`: the answer as files, for three requests: one that is reached, one at the edge of what can be reached, one
// that is out of reach. The first screen of each mail has to tell what to buy, what it does, what breaks first and what to
// do next.
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { catalogueContent } from '@ductwright/catalogue/catalogue-content'
import { demoCatalogueFolder, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import { columns } from '@ductwright/contract/inert'
import { parseRequest } from '@ductwright/contract/parse-request'
import type { Result } from '@ductwright/contract/result'
import { renderCsv } from '@ductwright/report/csv'
import { renderText } from '@ductwright/report/text'
import { runSweepLocally } from '@ductwright/worker/local-sweep'
import { sweepInputs } from '@ductwright/worker/shard-pool'
import { simpleParser } from 'mailparser'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { flowing, numbers, seen } from '../report/read-mail.js'
import { ductwright, type Outcome, projectFolder, quickRequest } from './command.js'

const folder = mkdtempSync(join(tmpdir(), 'ductwright-out-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const examples = [
  ['composite-to-360', 0, 'reached', /^Yes: 360 km\/h is within reach/],
  ['composite-barely-363', 0, 'reached', /^Yes: 363 km\/h is within reach/],
  ['foam-out-of-reach', 1, 'none', /^Not with this airframe: /],
] as const

describe.each(examples)('the example %s', (name, code, outcome, headline) => {
  const out = join(folder, 'new', name)
  const read = (file: string) => readFileSync(join(out, file), 'utf8')
  let ran: Outcome
  let result: Result

  beforeAll(async () => {
    ran = await ductwright(['sweep', `examples/${name}.json`, '--out', out])
    result = JSON.parse(read('answer.json')) as Result
  })

  it('is answered, and its files are named on standard error', () => {
    expect(ran.code).toBe(code)
    expect(result.outcome).toBe(outcome)
    expect(ran.err).toMatch(/\d+ files written, among them report\.html/)
  })

  it('prints within 100 columns what the mail says', async () => {
    for (const line of ran.out.split('\n')) expect(columns(line)).toBeLessThanOrEqual(100)
    const request = parseRequest(JSON.parse(readFileSync(join(projectFolder, `examples/${name}.json`), 'utf8')))
    const catalogue = catalogueContent(await readCatalogueFolder(demoCatalogueFolder))
    // What a limit removed is counted the same in every whole run, on however many threads.
    const { receipt } = await runSweepLocally(sweepInputs(request, catalogue), { threads: 1 })
    expect(ran.out).toBe(renderText(result, { width: 100, receipt }))
    expect(numbers(read('mail.txt'))).toEqual(expect.arrayContaining(numbers(ran.out)))
  })

  it('answers on the first screen', () => {
    const [opening = ''] = read('mail.txt').split(/\n[A-Z ]{5,}\n-+\n/)
    const first = flowing(opening.slice(opening.indexOf('\n\n') + 2))
    expect(first).toMatch(headline)
    expect(first).toMatch(
      /\d+ km\/h steady, level \d+:\d\d min flight time [\d,.]+ EUR to pay \d+ % below the design load/,
    )
    for (const label of [
      /(?:Buy|Closest: buy): \S+ /,
      /Breaks first: \S+ /,
      /Do next: \S+ /,
      /You asked for: \d+ km\/h/,
    ]) {
      expect(first).toMatch(label)
    }
    // Without scrolling far: a page of a telephone.
    expect(opening.split('\n').length).toBeLessThanOrEqual(36)
    expect(first).not.toMatch(/pareto|dominat|objective|feasible|desirab|sensitivit/i)
  })

  it('holds mail, page, list and charts that agree', async () => {
    expect(read('answer.json')).toBe(`${canonicalJson(result)}\n`)
    expect(read('answer.csv')).toBe(renderCsv(result))
    const text = read('mail.txt')
    const html = read('mail.html')
    expect(numbers(seen(html))).toEqual(numbers(text))
    expect(Buffer.byteLength(html)).toBeLessThanOrEqual(90_000)
    expect(seen(Buffer.from(html).subarray(0, 15_000).toString())).toContain('Do next')
    const page = new Set(numbers(seen(read('report.html'))))
    expect(numbers(text).filter((number) => !page.has(number))).toEqual([])
    for (const [, source] of html.matchAll(/ src="([^"]+)"/g)) expect(existsSync(join(out, source!))).toBe(true)
    expect(existsSync(join(out, 'charts', 'speed-cost.svg'))).toBe(outcome === 'reached')
    const message = await simpleParser(read('mail.eml'))
    expect(message.text).toBe(text)
    expect([message.to, message.cc, message.bcc]).toEqual([undefined, undefined, undefined])
    expect(read('mail.eml')).not.toMatch(/^(?:to|cc|bcc):/im)
  })
})

describe('--out', () => {
  const quick = JSON.stringify(quickRequest({ target: { speed_km_h: 200 } }))

  it('writes over its own files and leaves others alone', async () => {
    const out = join(folder, 'used')
    mkdirSync(out)
    writeFileSync(join(out, 'notes.txt'), 'mine')
    writeFileSync(join(out, 'answer.csv'), 'old')
    const { code } = await ductwright(['sweep', '-', '--out', out, '--json'], quick)
    expect(code).toBe(0)
    expect(readFileSync(join(out, 'notes.txt'), 'utf8')).toBe('mine')
    expect(readFileSync(join(out, 'answer.csv'), 'utf8')).toMatch(/^rank,/)
  })

  it.each([
    ['a file', () => file('plain'), /--out \S+plain: cannot be written: it is a file/],
    ['a folder below a file', () => join(file('above'), 'x'), /cannot be written: it is not a folder/],
    ['a folder where none can be made', () => '/proc/ductwright', /--out \/proc\/ductwright: cannot be written: /],
    ['a name that is too long', () => join(folder, 'x'.repeat(300)), /cannot be written: /],
  ])('refuses %s before any work is done', async (_what, path, words) => {
    const { code, out, err } = await ductwright(['sweep', '-', '--out', path()], quick)
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toMatch(words)
    expect(err).not.toMatch(/Sweeping|\n\s+at /)
  })

  it('refuses to replace a folder by a file, naming it', async () => {
    const out = join(folder, 'taken')
    mkdirSync(join(out, 'report.html'), { recursive: true })
    const { code, err } = await ductwright(['sweep', '-', '--out', out], quick)
    expect(code).toBe(2)
    expect(err).toMatch(/report\.html: cannot be written: it is a folder/)
  })
})

function file(name: string): string {
  const path = join(folder, name)
  writeFileSync(path, '')
  return path
}
