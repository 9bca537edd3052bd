// What the letter tells a builder to do: the first screen's next step, where the next money or hour should go, the way up
// through the list, and what would make it possible where the answer is no.
import type { Relaxation, Result } from '@ductwright/contract/result'
import { renderText } from '@ductwright/report/text'
import { describe, expect, it } from 'vitest'
import { answer } from './fixture.js'
import { flowing } from './read-mail.js'

/** The part of the letter under a heading. */
function under(result: Result, heading: string): string {
  const [, rest = ''] = renderText(result).split(`\n${heading}\n`)
  return flowing(rest.split(/\n[A-Z ]{5,}\n-+\n/)[0] ?? '')
}

const opening = (result: Result) => flowing(renderText(result).split(/\n[A-Z ]{5,}\n-+\n/)[0] ?? '')

describe('where the answer is yes', () => {
  it('the next money or hour goes to the best value first, clean-up work and other purchases side by side', () => {
    const next = under(answer(), 'WHERE THE NEXT MONEY OR HOUR SHOULD GO')
    const work = 'Make the wheel doors close flush (10.4 km/h per 100 EUR, 0.3 km/h per hour)'
    const purchase = 'number 4 instead: the next larger motor (5.6 km/h per 100 EUR)'
    expect(next).toContain(work)
    expect(next.indexOf(purchase)).toBeGreaterThan(next.indexOf(work))
    expect(next).toContain('10 km/h more: Number 4 does 373 km/h for 160.40 EUR more.')
    expect(next).toContain('10 % more reserve: The same setup at 88 % throttle: 12 km/h less.')
  })

  it('says so when nothing brings more speed', () => {
    const result = answer()
    const picks = result.picks.map((pick) => ({ ...pick, advice: { ...pick.advice, steps: [] } }))
    expect(under({ ...result, picks }, 'WHERE THE NEXT MONEY OR HOUR SHOULD GO')).toContain(
      'Neither clean-up work nor another setup of the list brings more speed.',
    )
  })

  it('the way up is a table, and where it gets dear is a sentence below it', () => {
    const stairs = under(answer(), 'STEP BY STEP')
    expect(stairs).toContain('number km/h EUR below design load km/h more EUR more 3 362 773.35 25 % 62.2 773.35')
    expect(stairs).toContain('Beyond number 5 each km/h costs twice as much.')
  })

  it('leaves the way up out where there is none', () => {
    expect(renderText({ ...answer(), staircase: [], knee: null })).not.toContain('STEP BY STEP')
  })

  it('tells what holds the speed back by the kind that binds', () => {
    const result = answer()
    const binds = { kind: 'heat', words: 'motor winding temperature stops the throttle at 84 %' } as const
    const front = result.front.map((member) => ({ ...member, binds }))
    expect(under({ ...result, front }, 'WHY THIS ONE')).toContain(`What holds the speed back: ${binds.words}.`)
  })
})

describe('where the answer is no', () => {
  const short = answer({ outcome: 'short' })

  it('the smallest change of the request stands on the first screen, all of them right behind it', () => {
    expect(opening(short)).toContain('Do next: Raise the budget from 1,200 EUR to 1,342.40 EUR: then 361 km/h')
    const possible = under(short, 'WHAT WOULD MAKE IT POSSIBLE')
    expect(possible).toContain('Budget: raise the budget from 1,200 EUR to 1,342.40 EUR: then 361 km/h Merle 90')
    expect(possible).toContain('Take-off mass: allow a take-off mass of 5.31 kg instead of 5.00 kg')
    expect(possible).toContain('Clean-up work alone: from 300 km/h to 312 km/h for 83.70 EUR and 28.5 h.')
    const text = renderText(short)
    expect(text.indexOf('WHAT WOULD MAKE IT POSSIBLE')).toBeLessThan(text.indexOf('WHAT WAS RULED OUT'))
  })

  const less = (to: number): Relaxation => {
    const words = `Bring the drag area down from 92.3 cm² to ${to} cm²: then 360 km/h`
    return { ...short.relaxations[0]!, relax: 'drag-area', unit: 'cm²', from: 92.3, to, words }
  }

  it('advises less drag only where clean-up work takes off as much, and names that work', () => {
    const few = opening({ ...short, relaxations: [less(92.2), short.relaxations[0]!] })
    expect(few).toMatch(
      /Do next: Bring the drag area down from 92\.3 cm² to 92\.2 cm².* That takes: .+ \([\d.]+ EUR and [\d.]+ h\)/,
    )
    const far = opening({ ...short, relaxations: [less(20), short.relaxations[0]!] })
    expect(far).toContain('Do next: Raise the budget')
  })

  it('shows the fastest that holds every limit where nothing comes near, and what would break', () => {
    const none = answer({ outcome: 'none' })
    const slower: Relaxation = {
      ...short.relaxations[0]!,
      relax: 'target',
      words: 'Lower the target from 360 km/h to 284 km/h: then 284 km/h.',
      raw: { speed_km_h: 284, flight_time_s: 300, cost: 640, margin: 0.04 },
    }
    const first = opening({ ...none, relaxations: [slower] })
    expect(first).toContain('284 km/h steady, level 5:00 min flight time 640 EUR to pay 4 % below the design load')
    expect(first).toContain('Do next: Lower the target from 360 km/h to 284 km/h')
    expect(first).toContain('Closest: buy: Merle 90 / 12 blades')
    expect(first).toContain(
      'Breaks first: its worst load is 4 % below the design load; by speed alone flutter of the wing goes first, from 432 km/h on',
    )
  })
})
