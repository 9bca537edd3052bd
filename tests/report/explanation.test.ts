// "Why not mine" against a made-up answer: every verdict, as data and in words.
import { columns } from '@ductwright/contract/inert'
import type { Objectives } from '@ductwright/contract/result'
import { explanationOf, isOut, type JudgedSetup } from '@ductwright/report/explanation'
import { renderExplanation } from '@ductwright/report/explanation-text'
import { describe, expect, it } from 'vitest'
import { answer, hostileNames } from './fixture.js'
import { flowing } from './read-mail.js'

const result = answer({ members: 24 })
const first = result.front[0]!

function judged(raw: Partial<Objectives> | null, changes: Partial<JudgedSetup> = {}): JudgedSetup {
  return {
    setup: { ...first.setup, duty: 0.777 },
    names: {},
    refused: [],
    left_out: [],
    untried: [],
    broken: [],
    raw: raw === null ? null : { ...first.raw, ...raw },
    ...changes,
  }
}

const words = (setup: JudgedSetup) => flowing(renderExplanation(explanationOf(setup, result), { width: 100 }))

describe('a setup', () => {
  it('that another beats is told which one, and by how much', () => {
    const slower = judged({ speed_km_h: first.raw.speed_km_h - 20, cost: first.raw.cost + 100 })
    const explanation = explanationOf(slower, result)
    expect(explanation).toMatchObject({ verdict: 'beaten', against: { rank: 1 } })
    expect(explanation.ahead?.speed_km_h).toBeCloseTo(20, 6)
    expect(explanation.ahead?.cost).toBeCloseTo(100, 6)
    expect(isOut(explanation)).toBe(false)
    expect(words(slower)).toContain('This setup is beaten by number 1 of the list.')
    expect(words(slower)).toContain('Beaten by number 1, which is no worse in anything that counts')
    expect(words(slower)).toContain('20 km/h faster and 100 EUR cheaper')
    expect(words(slower)).toContain('AGAINST NUMBER 1')
  })

  it('that rounds to one of the list is as good as that one', () => {
    const same = judged({ cost: first.raw.cost + 0.5 })
    expect(explanationOf(same, result).verdict).toBe('equalled')
    expect(words(same)).toContain('This setup is as good as number 1 of the list, which stands for both.')
  })

  it('that nothing beats is told so, and why it is not in the list', () => {
    const fast = judged({ speed_km_h: 420 }, { untried: ['duty', 'nozzle_ratio'] })
    expect(explanationOf(fast, result).verdict).toBe('unbeaten')
    expect(words(fast)).toContain('Nothing in the list beats this setup.')
    expect(words(fast)).toContain(
      'It is not in the list because the request does not try its throttle cap and nozzle exit.',
    )
  })

  it('of the list is told its number, settings that nobody could tell apart included', () => {
    const third = result.front[2]!
    const own = judged(third.raw, { setup: { ...third.setup, duty: third.setup.duty + 1e-9 } })
    expect(explanationOf(own, result)).toMatchObject({ verdict: 'listed', against: { rank: 3 } })
    expect(words(own)).toContain('This setup is in the list: number 3.')
  })

  it('that breaks limits is told each: wishes in their own figures, ratings by what is allowed', () => {
    const broken = [
      { limit: 'motor-current', words: 'motor current', used: 1.042 },
      { limit: 'budget', words: 'budget', used: 1.12 },
      { limit: 'flight-time', words: 'flight time', used: 1.1 },
      { limit: 'structural-margin', words: 'structural margin', used: 1.02 },
      { limit: 'speed-floor', words: 'speed floor', used: 1.3 },
      { limit: 'thrust-to-weight', words: 'standing thrust to weight', used: 1.25 },
    ]
    const over = judged({ cost: 1342.4, flight_time_s: 165, margin: 0.05, speed_km_h: 250 }, { broken })
    expect(explanationOf(over, result)).toMatchObject({ verdict: 'breaks-limits', against: null, ahead: null })
    for (const line of [
      'This setup breaks 6 limits of the request.',
      'standing thrust to weight: 20.0 % less than is asked for',
      'motor current: 104.2 % of what is allowed',
      'budget: over the 1,200 EUR by 142.40 EUR',
      'flight time: 2:45 min, and at least 3:00 min is asked for',
      'loads: 5 % below the design load, and at least 10 % below is asked for',
      'too slow: 250 km/h, and the list begins at 306 km/h',
    ]) {
      expect(words(over)).toContain(line)
    }
    expect(isOut(explanationOf(over, result))).toBe(true)
  })

  it('that cannot be built, or that the request leaves out, is told why before anything else', () => {
    const refused = judged(null, { refused: [{ rule: 'connector', words: 'connectors that do not match' }] })
    expect(words(refused)).toContain('This setup cannot be built or flown.')
    expect(words(refused)).toContain('connectors that do not match')
    const left = judged({}, { left_out: ['motor-1'], broken: [{ limit: 'budget', words: 'budget', used: 1.1 }] })
    expect(explanationOf(left, result).verdict).toBe('left-out')
    expect(words(left)).toContain('the request leaves no choice of Halden 3674 1450')
  })

  it('is not beaten by an empty list', () => {
    const none = answer({ outcome: 'none' })
    const explanation = explanationOf(judged({}), none)
    expect(explanation).toMatchObject({ verdict: 'unbeaten', against: null })
    expect(renderExplanation(explanation)).toContain('The list is empty: nothing beats this setup.')
  })
})

it('keeps hostile names inert and within its width', () => {
  const hostile = answer({ hostile: true })
  const text = renderExplanation(explanationOf(judged({ speed_km_h: 200 }), hostile), { width: 80 })
  expect(text).toContain(hostileNames[0])
  expect(text).not.toMatch(/[^\P{Cc}\n]|[\u202a-\u202e\u2066-\u2069\u200e\u200f]/u)
  for (const line of text.split('\n')) expect(columns(line)).toBeLessThanOrEqual(80)
})
