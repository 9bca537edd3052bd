// What the letter says beyond the best setup: how sure each pick is, how it flies, what clean-up work would gain, and
// where drag and highest speed of the airframe come from.

import type { Result } from '@ductwright/contract/result'
import { resultSchema } from '@ductwright/contract/result-schema'
import { renderMail } from '@ductwright/report/mail'
import { renderText } from '@ductwright/report/text'
import { describe, expect, it } from 'vitest'
import { answer } from './fixture.js'
import { receipt } from './fixture-receipt.js'

const flowing = (text: string) => text.replace(/\s+/g, ' ')
const letter = (result: Result) => flowing(renderText(result))
const times = (text: string, words: string) => text.split(words).length - 1

/** The part of the letter under a heading. */
function under(result: Result, heading: string): string {
  const [, rest = ''] = renderText(result).split(`\n${heading}\n`)
  return flowing(rest.split(/\n[A-Z ]{5,}\n-+\n/)[0] ?? '')
}

it('is tested on an answer that the contract allows', () => {
  for (const outcome of ['reached', 'short', 'none'] as const) {
    const sent: unknown = JSON.parse(JSON.stringify(answer({ outcome })))
    expect(resultSchema.safeParse(sent).error).toBeUndefined()
  }
})

describe('each pick', () => {
  it('tells odds, band, spread and flight, each once; of the setup the letter is about the odds stand in front', () => {
    const picks = under(answer(), 'WHAT TO CHOOSE FROM')
    const odds =
      'How sure: 6 in 10 that it reaches 360 km/h; 340 to 388 km/h in 90 cases of 100; 97 in 100 that it flies level'
    expect(times(picks, odds)).toBe(2)
    expect(letter(answer()).indexOf(odds)).toBeLessThan(letter(answer()).indexOf('WHAT TO BUY'))
    for (const words of [
      'Spread of it: Mostly from drag area (58 %), fan efficiency (17 %) and speed constant of the motor (11 %).',
      'full throttle for 42 s in one go, then motor winding temperature ends it; at least 19 s of cruise after each pass',
      'on the ground by 4:47 min or 4,000 mAh drawn, whichever is first',
    ]) {
      expect(times(picks, words)).toBe(3)
    }
  })

  it('that is several of them stands once, with all its names and reasons', () => {
    const picks = under(answer(), 'WHAT TO CHOOSE FROM')
    expect(picks).toContain(
      'Best all round, best for the money: number 1 The best of everything you asked for. The cheapest that does all',
    )
    expect(times(picks, 'number 1 ')).toBe(1)
    // What the letter is about has been told; the others tell what they do.
    expect(times(picks, 'Does: ')).toBe(2)
    expect(picks).toContain('Does: 362 km/h, 4:23 min, 772.35 EUR')
    const result = answer()
    const one = { ...result, picks: result.picks.map((pick) => ({ ...pick, rank: 1 })) }
    const whole = under(one, 'WHAT TO CHOOSE FROM')
    expect(whole).toContain('Best all round, best for the money, safest, fastest: number 1')
    expect(times(whole, 'Spread of it')).toBe(1)
  })

  it('speaks of the speed that was asked for, out of a dive too', () => {
    const result = answer()
    const target = { ...result.understood.target, basis: 'dive' as const }
    const text = letter({ ...result, understood: { ...result.understood, target } })
    expect(text).toContain('362 km/h out of the dive')
    // The band of the speed at the bottom of the dive, not of the steady speed.
    expect(text).toContain('that it reaches 360 km/h; 354 to 404 km/h in 90 cases of 100')
    expect(text).toContain('standing with full packs: 375 km/h, 4:24 min')
  })

  it('names no single cause when none stands out', () => {
    const result = answer()
    const picks = result.picks.map((pick) => ({ ...pick, study: { ...pick.study, drivers: [] } }))
    expect(letter({ ...result, picks })).toContain('Spread of it: No single input stands out.')
  })
})

describe('the best setup', () => {
  it('does what it does within a band, the airframe allows what it allows', () => {
    const text = letter(answer())
    expect(text).toContain('Steady level speed, packs at 80 %: 362 km/h (340 to 388)')
    expect(text).toContain('Out of a dive of 20 m at 30°: 377 km/h (354 to 404)')
    expect(text).toContain('Flight time to the reserve: 4:23 min (4:06 to 4:41)')
    expect(text).toContain('432 km/h, set by flutter of the wing; this setup reaches 379 km/h with a full pack')
  })

  it('has no band when it is none of the picks', () => {
    const result = answer()
    const text = letter({ ...result, picks: result.picks.filter(({ rank }) => rank !== 1) })
    expect(text).toContain('packs at 80 %: 362 km/h Within')
    expect(text).not.toContain('In brackets')
  })
})

describe('what it rests on', () => {
  it('names air, drag, its terms, the work counted as done and every speed allowed', () => {
    const basis = under(answer(), 'WHAT THIS RESTS ON')
    for (const words of [
      'Drag area 92.3 cm², solved from the speed you measured, less what clean-up work took off.',
      'skin of the wing 36.1 37 skin of the fuselage 30.5 31 landing gear 17.3 18 hinge gaps 13.1 14',
      '203 m above the sea, 21 °C, 990 hPa, 1.171 kg/m³',
      'Clean-up work counted as done: Seal the hinge gaps with film: 10.90 EUR and 4.5 h',
      'Allowed by flutter of the wing: 432 km/h',
    ]) {
      expect(basis).toContain(words)
    }
  })

  it('says only what is known of an airframe stated by its drag area alone', () => {
    const result = answer()
    const bare = { drag_basis: 'stated', drag_terms: [], treatments: [], speed_limits: [] } as const
    const basis = under({ ...result, airframe: { ...result.airframe, ...bare } }, 'WHAT THIS RESTS ON')
    expect(basis).toContain('Drag area 92.3 cm², as stated for the airframe.')
    expect(basis).not.toMatch(/Drag from|counted as done|Allowed by|undefined/)
  })

  it('echoes radii, climb, dive and the condition of owned packs', () => {
    const read = under(answer(), 'HOW YOUR REQUEST WAS READ')
    expect(read).toContain('12.0 times the weight, turns of 90 m radius at top speed')
    expect(read).toContain('50 m up, 25 s down')
    expect(read).toContain('500 m, after a dive of 20 m at 30°')
    expect(read).toContain('2 × Brisk 6S 5000 (1.40 mΩ a cell, 40 charges)')
  })
})

it('stays under 90 kB with everything there is to tell', async () => {
  const result = answer({ members: 700, outcome: 'short' })
  const times = <T>(count: number, item: T) => Array.from({ length: count }, () => item)
  const name = 'A name as long as any maker gives to a part 90'
  const figures = (of: Result['front'][number]['figures']) => ({ ...of, margins: times(8, of.margins[0]!) })
  const work = receipt({ removed: times(16, receipt().removed[1]!) })
  const fullest: Result = {
    ...result,
    names: Object.fromEntries(Object.keys(result.names).map((id) => [id, name])),
    airframe: {
      ...result.airframe,
      drag_terms: times(11, result.airframe.drag_terms[0]!),
      treatments: times(6, result.airframe.treatments[0]!),
      speed_limits: times(6, result.airframe.speed_limits[0]!),
    },
    front: result.front.map((member) => ({ ...member, figures: figures(member.figures) })),
    picks: result.picks.map((pick) => {
      const { sensitivity } = pick.study
      const treatments = times(6, sensitivity.treatments[0]!)
      return {
        ...pick,
        highest: result.picks[0]!.highest,
        study: { ...pick.study, sensitivity: { ...sensitivity, treatments } },
      }
    }),
    nearest: times(5, result.nearest[0]!),
    staircase: times(12, result.staircase[0]!),
    relaxations: times(7, result.relaxations[0]!),
    assumptions: times(16, 'x'.repeat(180)),
    cautions: times(8, 'x'.repeat(400)),
  }
  const bytes = Buffer.byteLength((await renderMail(fullest, work)).html)
  expect(bytes).toBeGreaterThan(70_000)
  expect(bytes).toBeLessThanOrEqual(90_000)
})
