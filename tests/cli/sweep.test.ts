// The sweep command as a child process: what goes to which stream, how it ends, and how it refuses.
import { spawnSync } from 'node:child_process'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import type { Result } from '@ductwright/contract/result'
import { beforeAll, describe, expect, it } from 'vitest'
import { ductwright, type Outcome, quickRequest } from './command.js'

const reachable = JSON.stringify(quickRequest({ target: { speed_km_h: 200 } }))
const unreachable = JSON.stringify(quickRequest({ target: { speed_km_h: 790 } }))

describe('sweep', () => {
  let one: Outcome
  let two: Outcome
  let text: Outcome
  let short: Outcome

  beforeAll(async () => {
    one = await ductwright(['sweep', '-', '--json', '--threads', '1'], reachable)
    two = await ductwright(['sweep', '-', '--json', '--threads', '2'], reachable)
    text = await ductwright(['sweep', '-'], reachable)
    short = await ductwright(['sweep', '-', '--json'], unreachable)
  })

  it('reads standard input and prints headline, best setup and ranked list', () => {
    const { headline, front, names } = JSON.parse(one.out) as Result
    expect(words(text.out)).toContain(words(headline).slice(0, 60))
    expect(text.out).toMatch(/^rank +km\/h/m)
    expect(words(text.out)).toContain(words(names[front[0]?.setup.fan ?? ''] ?? 'no fan'))
    expect(text.err).toMatch(/100 %/)
  })

  it('prints nothing but one canonical JSON document on standard output with --json', () => {
    const result = JSON.parse(one.out) as Result
    expect(result.format).toBe('ductwright-result/1')
    expect(one.out).toBe(`${canonicalJson(result)}\n`)
  })

  it('gives the same bytes on one thread and on two', () => {
    expect(one.out.length).toBeGreaterThan(1000)
    expect(two.out).toBe(one.out)
  })

  it('ends with 0 when the target is reached and with 1 when it is not', () => {
    expect([one, text].map(({ code }) => code)).toEqual([0, 0])
    expect((JSON.parse(one.out) as Result).outcome).toBe('reached')
    expect((JSON.parse(short.out) as Result).outcome).not.toBe('reached')
    expect(short.code).toBe(1)
  })

  it('survives a reader that has gone', async () => {
    const done = spawnSync('sh', ['-c', `"${process.execPath}" cli/bin/ductwright.js sweep - | head -n 1`], {
      input: reachable,
      encoding: 'utf8',
    })
    expect(done.stderr).not.toMatch(/EPIPE|at .*\.js:/)
    expect(done.stdout.split('\n').length).toBe(2)
  })
})

describe('sweep refuses', () => {
  it('what would take longer than is allowed, naming the size, the time and the cure', async () => {
    const fine = quickRequest({ required: [], sweep: { duty_step: 0.01, whole_front: true } })
    const { code, out, err } = await ductwright(['sweep', '-', '--seconds-max', '1'], JSON.stringify(fine))
    expect(code).toBe(2)
    expect(out).toBe('')
    expect(err).toMatch(/\/sweep: .*e\+\d+ combinations.* would take about \d+ s .* at most 1 s .*fewer duties/)
  })

  it('every faulty field in one line each, naming field, rule and value', async () => {
    const bad = JSON.stringify(quickRequest({ target: { speed_km_h: -5 }, budget: 'much', colour: 'red' }))
    const { code, out, err } = await ductwright(['sweep', '-'], bad)
    const lines = err.trim().split('\n')
    expect(code).toBe(2)
    expect(out).toBe('')
    expect(lines).toHaveLength(3)
    expect(lines.join('\n')).toMatch(/\/target\/speed_km_h.*-5/)
    expect(lines.join('\n')).toMatch(/\/budget.*much/)
    expect(lines.join('\n')).toMatch(/\/colour.*unknown-field/)
  })

  it('a part that is not in the catalogue', async () => {
    const { code, err } = await ductwright(['sweep', '-'], JSON.stringify(quickRequest({ required: ['no-such-part'] })))
    expect(code).toBe(2)
    expect(err).toContain('no-such-part')
    expect(err).not.toMatch(/\n\s+at /)
  })

  it.each([
    ['text that is not JSON', '{"target": ', /standard input: not JSON/],
    ['an empty input', '', /standard input: not JSON/],
    ['a list', '[]', /request|object/i],
  ])('%s', async (_what, input, words) => {
    const { code, out, err } = await ductwright(['sweep', '-'], input)
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toMatch(words)
    expect(err).not.toMatch(/\n\s+at /)
  })

  it.each([
    [
      'a file that is not there',
      ['sweep', 'no-such-request.json'],
      /no-such-request\.json: cannot be read: no such file/,
    ],
    ['a folder', ['sweep', 'docs'], /docs: cannot be read: it is a folder/],
    ['a catalogue that is not there', ['sweep', '-', '--catalogue', 'no-such-folder'], /--catalogue no-such-folder/],
    ['threads that are no number', ['sweep', '-', '--threads', 'many'], /--threads.*many/],
    ['no threads', ['sweep', '-', '--threads', '0'], /--threads.*0/],
    ['an unknown option', ['sweep', '-', '--fast'], /--fast/],
    ['no file', ['sweep'], /request/],
    ['an unknown command', ['fly'], /fly/],
  ])('%s', async (_what, args, words) => {
    const { code, out, err } = await ductwright(args, reachable)
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toMatch(words)
    expect(err).not.toMatch(/\n\s+at /)
  })
})

describe('help', () => {
  it('is no mistake', async () => {
    const { code, out } = await ductwright(['--help'])
    expect(code).toBe(0)
    expect(out).toMatch(/sweep.*evaluate.*serve.*catalogue/s)
  })
})

function words(text: string): string {
  return text.replace(/\s+/g, ' ').trim()
}
