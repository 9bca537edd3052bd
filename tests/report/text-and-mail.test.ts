// The two halves of the mail: the same numbers, everything said, nothing that acts, small enough to open anywhere.

import { columns } from '@ductwright/contract/inert'
import type { Receipt, Result } from '@ductwright/contract/result'
import { type Mail, renderMail } from '@ductwright/report/mail'
import { renderText } from '@ductwright/report/text'
import { describe, expect, it } from 'vitest'
import { allowing, answer, hostileNames, type Wish } from './fixture.js'
import { receipt, takenOver } from './fixture-receipt.js'
import { flowing, numbers, seen } from './read-mail.js'

const outcomes = ['reached', 'short', 'none'] as const

// Drawing takes a while: each answer is drawn once.
const drawn = new Map<string, Promise<Mail>>()

function mailOf(wish: Wish): Promise<Mail> {
  const key = JSON.stringify(wish)
  const mail = drawn.get(key) ?? renderMail(answer(wish), receipt())
  drawn.set(key, mail)
  return mail
}

const htmlOf = async (wish: Wish): Promise<string> => (await mailOf(wish)).html

describe('text and HTML', () => {
  it.each(outcomes)('tell the same numbers, each as often, when the outcome is %s', async (outcome) => {
    const mail = await mailOf({ outcome })
    const told = numbers(mail.text)
    expect(told.length).toBeGreaterThan(outcome === 'none' ? 30 : 150)
    expect(numbers(seen(mail.html))).toEqual(told)
  })

  it('tell the same numbers under hostile names, no exception made', async () => {
    const mail = await mailOf({ hostile: true })
    expect(numbers(flowing(seen(mail.html)))).toEqual(numbers(flowing(mail.text)))
  })

  it.each(outcomes)('print every caution and assumption whole when the outcome is %s', async (outcome) => {
    const result = answer({ outcome })
    const mail = await mailOf({ outcome })
    for (const words of [...result.cautions, ...result.assumptions, ...result.rules.words]) {
      expect(flowing(mail.text)).toContain(words)
      expect(flowing(seen(mail.html))).toContain(words)
    }
  })

  it('print a caution longer than any other text whole', async () => {
    const long = Array.from({ length: 900 }, (_, at) => `word${at}`).join(' ')
    const mail = await renderMail({ ...answer(), cautions: [long] })
    expect(flowing(mail.text)).toContain(long)
    expect(flowing(seen(mail.html))).toContain(long)
  })
})

describe('plain text', () => {
  it('answers in the order a pilot needs', () => {
    const text = renderText(answer())
    const headings = ['WHAT YOU HAVE NOW', 'WHAT TO BUY', 'WHAT TO SET', 'WHAT IT WILL DO', 'WHAT BREAKS FIRST']
    const later = ['WHY THIS ONE', 'WHAT TO CHOOSE FROM', 'THE LIST', 'WHAT THIS RESTS ON', 'BEFORE YOU FLY']
    const places = ['Yes: 360 km/h is within reach', ...headings, ...later].map((heading) => text.indexOf(heading))
    expect(places).not.toContain(-1)
    expect(places).toEqual([...places].sort((a, b) => a - b))
  })

  it('opens with what to buy, what it does, what breaks first and why, in plain words', () => {
    const first = flowing(renderText(answer()).split('WHAT YOU HAVE NOW')[0]!)
    expect(first).toContain('362 km/h steady, level')
    expect(first).toContain('25 % below the design load')
    expect(first).toContain('Buy: Merle 90 / 12 blades · Halden 3674 1450 · Lindo 160; you have 2 × Brisk 6S 5000')
    expect(first).toContain(
      'Breaks first: flutter of the wing, 25 % below the design load; then speed controller current, 93 % used',
    )
    expect(first).toContain(
      'Why this one: Best all round: reaches the target with the reserve wanted. Not the safest: number 2: 1 EUR dearer than the first.',
    )
    expect(first).toContain(
      'Do next: Order the parts, do the clean-up work (4.5 h), check it on the bench (anchored, packs full: about 100 A, 4,295 W, 62.3 N), then fly, with at most 10 % more speed from flight to flight.',
    )
    expect(first).toContain(
      'How sure: 6 in 10 that it reaches 360 km/h; 340 to 388 km/h in 90 cases of 100; 97 in 100 that it flies level; 8 in 10 that it holds the limit on speed controller current',
    )
  })

  it.each(outcomes)('uses no word of the mathematics when %s', (outcome) => {
    expect(renderText(answer({ outcome }))).not.toMatch(
      /pareto|\bfront\b|dominat|objective|feasible|desirab|elasticit|sensitivit|quantile|percentile|sampl|variance/i,
    )
  })

  it('labels a refinement as lying outside the list', () => {
    const text = flowing(renderText(answer()))
    expect(text).toContain(
      'For the target: Outside the list. Just enough for the target. At 91.3 % throttle, 96 A standing with full packs: 360 km/h',
    )
    expect(text).toContain('To the limits: Outside the list.')
  })

  it.each(['short', 'none'] as const)('says what removed the rest and what came nearest when %s', (outcome) => {
    const text = flowing(renderText(answer({ outcome }), { receipt: receipt() }))
    expect(text).toMatch(
      /parts that do not go together: 924,288 speed controller current: 201,877 budget: 18,721 top speed under 306 km\/h: 3,500/,
    )
    expect(text).toContain('WHAT CAME NEAREST')
    expect(text).toContain('speed controller current 102.4 % of its limit')
    expect(text.indexOf('WHAT WAS RULED OUT')).toBeLessThan(text.indexOf('WHAT YOU HAVE NOW'))
  })

  it('names what stops the nearest setup when nothing is left', () => {
    const none = answer({ outcome: 'none' })
    const stops = (changes: Partial<Result>) =>
      /What stops it: (.*?) Do next:/.exec(flowing(renderText({ ...none, ...changes })))?.[1]
    expect(stops({})).toBe('speed controller current: 102.4 % of its limit in the setup that comes nearest')
    const raw = { speed_km_h: 287.4, flight_time_s: 250, cost: 700, margin: 0.2 }
    const slow = { ...none.nearest[0]!, raw, broken: [{ limit: 'speed-floor', words: 'speed floor', used: 1.2 }] }
    expect(stops({ nearest: [slow] })).toBe(
      'too little speed: the fastest setup that holds every other limit does 287 km/h',
    )
    expect(stops({ nearest: [] })).toBe('every setup breaks more than one limit, or one by far')
    expect(stops({ nearest: [], counts: { ...none.counts, compatible: 0 } })).toBe(
      'no combination of the parts allowed fits this airframe',
    )
  })

  it('tells what each limit removed only with the receipt of the work, and of what it speaks', () => {
    const ruledOut = (given: Receipt | null, outcome: 'reached' | 'none' = 'reached') =>
      flowing(renderText(answer({ outcome }), { receipt: given }).split('WHAT WAS RULED OUT')[1]!).split(' WHAT ')[0]!
    const left = '1,234,500 combinations; 310,212 of them fit together, and 24 of these are left that no other beats in'
    const apart = 'Most often parts do not go together for this: motor too fat for the fan.'
    const bare = ruledOut(null)
    expect(bare).toContain(`${left} everything. ${apart} parts that do not go together: 924,288`)
    expect(bare).not.toContain('speed controller current: 201,877')
    const whole = ruledOut(receipt())
    expect(whole).toContain(
      `${left} everything. ${apart} 61,204 were put aside because one listed is no worse in anything; 24,910 were worked through and keep every limit. parts`,
    )
    expect(whole).not.toContain('taken over')
    expect(ruledOut(takenOver)).toMatch(
      /for the fan\. The list was taken over from the answer on catalogue version 77e0c4b177e0…; searched again was only what has one of 3 changed parts in it, and limit by limit only that is counted\. Of that 61,204 were put aside/,
    )
    const nothing = ruledOut(receipt({ dominated: 0, feasible: 0 }), 'none')
    expect(nothing).toContain('310,212 of them fit together, and none of these keeps every limit. Most often parts')
  })

  it('speaks of the first of the list when the target is reached, of the fastest when it is not', () => {
    const opening = (outcome: 'reached' | 'short') => flowing(renderText(answer({ outcome })).split('\nWHAT ')[0]!)
    expect(opening('reached')).toContain('Buy: Merle 90 / 12 blades')
    expect(opening('short')).toContain('Closest: buy: Corvid 90 HX')
    expect(opening('short')).toContain(
      'Why this one: Nothing left is faster. Not the best all round: number 1: 341 km/h, 4:35',
    )
  })

  it('says so when the packs no longer carry level flight at the reserve', () => {
    const result = answer()
    const first = result.front[0]!
    const front = [{ ...first, figures: { ...first.figures, top_last: null } }]
    expect(flowing(renderText({ ...result, front }))).toContain('none: the packs no longer carry level flight')
  })

  it('heads the letter with one whole sentence, full stops in the name or not', () => {
    const result = answer()
    const name = 'St. Elmo 90'
    const headline = `Yes: 360 km/h is within reach of the ${name}. The best setup does 362 km/h.`
    const text = renderText({ ...result, headline, airframe: { ...result.airframe, name } })
    expect(text).toContain('\nYes: 360 km/h is within reach of the St. Elmo 90.\n\n')
    expect(text).not.toContain('The best setup does 362 km/h.')
  })

  it('names the airframe first when the target lies beyond the speed it allows', () => {
    const text = flowing(renderText(allowing(answer({ outcome: 'short' }), 330)))
    expect(text).toContain(
      'What stops it: the airframe allows 330 km/h at most (flutter of the wing); speed controller',
    )
  })

  it('does without an allowed speed where nothing is known of the structure', () => {
    const result = answer({ outcome: 'short' })
    const text = flowing(renderText({ ...result, airframe: { ...result.airframe, speed_limits: [] } }))
    expect(text).toContain('What stops it: speed controller')
    expect(text).not.toContain('airframe allows at most')
  })

  it('counts a wish such as the speed floor as no rating of a part', () => {
    expect(flowing(renderText(answer()).split('WHY THIS ONE')[0]!)).not.toContain('speed floor')
  })

  it.each([false, true])('stays within its width, hostile names: %s', (hostile) => {
    for (const outcome of outcomes) {
      for (const line of renderText(answer({ outcome, hostile })).split('\n')) {
        expect(columns(line)).toBeLessThanOrEqual(76)
      }
    }
  })
})

describe('mail HTML', () => {
  it.each(outcomes)('stays under 90 kB with 700 setups, outcome %s', async (outcome) => {
    const html = await htmlOf({ outcome, members: 700 })
    expect(Buffer.byteLength(html)).toBeLessThanOrEqual(90_000)
  })

  it('gives the answer and the shopping list within the first 15 kB', async () => {
    const start = Buffer.from(await htmlOf({ members: 700 }))
      .subarray(0, 15_000)
      .toString()
    expect(start).toContain('Breaks first')
    expect(start).toContain('Why this one')
    expect(start).toContain('Do next')
    expect(start).toContain('What to buy')
    expect(seen(start)).toContain('771.35 EUR. If you owned none of it: 1,007.35 EUR.')
  })

  it.each(outcomes)('asks nothing of the outside and runs nothing, outcome %s', async (outcome) => {
    const html = await htmlOf({ outcome, hostile: true })
    const wordless = html.replace(/ alt="[^"]*"/g, ' alt=""')
    const tags = wordless.match(/<[a-z][^>]*>/gi) ?? []
    expect(tags.length).toBeGreaterThan(100)
    for (const tag of tags) {
      expect(tag).not.toMatch(/<(script|iframe|object|embed|link|form|svg)|\bon\w+=|\b(href|background|srcset)=|url\(/i)
      if (tag.includes('src=')) expect(tag).toMatch(/^<img class="pic" src="cid:[\w.-]+@ductwright" /)
    }
    expect(html).not.toMatch(/@import|url\(/i)
  })

  it('shows pictures that come along, shrinks them to the screen and tells their numbers in words', async () => {
    const { html, attachments } = await mailOf({})
    const shown = [...html.matchAll(/<img[^>]* src="cid:([^"]+)"[^>]*>/g)]
    const brought = attachments.flatMap(({ contentId }) => contentId ?? [])
    expect(shown.map((match) => match[1]).sort()).toEqual([...brought].sort())
    expect(shown.length).toBeGreaterThan(3)
    for (const [tag] of shown) {
      expect(numbers(/ alt="([^"]*)"/.exec(tag)?.[1] ?? '').length).toBeGreaterThan(3)
      expect(Number(/ width="(\d+)"/.exec(tag)?.[1])).toBeLessThanOrEqual(600)
      expect(tag).toMatch(/width:100%;max-width:\d+px;height:auto/)
    }
  })

  it('shows hostile names as text, whole and escaped', async () => {
    const html = await htmlOf({ hostile: true })
    expect(html).not.toContain(hostileNames[0])
    expect(html).toContain('&lt;script')
    expect(seen(html)).toContain(hostileNames[0])
    expect(html).not.toMatch(/[^\P{Cc}\n]|[\u202a-\u202e\u2066-\u2069\u200e\u200f]/u)
  })

  it('is not confused by a name that looks like a template', async () => {
    const result = answer()
    const names = { ...result.names, 'fan-0': '{{x}} <% y %> JUICE_CODE_BLOCK_0_ &amp; &#60;b&#62;' }
    expect(seen((await renderMail({ ...result, names })).html)).toContain(names['fan-0'])
  })

  it('has a dark and a narrow form', async () => {
    const html = await htmlOf({})
    expect(html).toContain('prefers-color-scheme:dark')
    expect(html).toContain('max-width:480px')
  })
})
