// The two halves of the mail: the same numbers, everything said, nothing that acts, small enough to open anywhere.

import { columns } from '@ductwright/contract/inert'
import { renderMail, renderMailHtml } from '@ductwright/report/mail'
import { renderText } from '@ductwright/report/text'
import { describe, expect, it } from 'vitest'
import { allowing, answer, hostileNames } from './fixture.js'

const outcomes = ['reached', 'short', 'none'] as const
const entities: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"' }

/** What a reader sees of the HTML: body only, tags gone, entities read. */
function seen(html: string): string {
  const body = html.slice(html.indexOf('<body'))
  return body
    .replace(/<span[^>]*>|<\/span>/g, '')
    .replace(/<[^>]*>/g, '\n')
    .replace(/&#(\d+);/g, (_, code: string) => String.fromCodePoint(Number(code)))
    .replace(/&(\w+);/g, (whole, name: string) => entities[name] ?? whole)
    .replaceAll('\u00a0', ' ')
}

/** Every number, with sign, thousands, decimals and colon, in order of size of the text. */
function numbers(text: string): string[] {
  return (text.match(/−?\d[\d,.:]*/g) ?? []).map((number) => number.replace(/[,.:]+$/, '')).sort()
}

/** One long line, so that wrapping does not matter. */
function flowing(text: string): string {
  return text.replace(/\s+/g, ' ')
}

describe('text and HTML', () => {
  it.each(outcomes)('tell the same numbers, each as often, when the outcome is %s', (outcome) => {
    const mail = renderMail(answer({ outcome }))
    const told = numbers(mail.text)
    expect(told.length).toBeGreaterThan(outcome === 'none' ? 30 : 150)
    expect(numbers(seen(mail.html))).toEqual(told)
  })

  it('tell the same numbers under hostile names, no exception made', () => {
    const mail = renderMail(answer({ hostile: true }))
    expect(numbers(flowing(seen(mail.html)))).toEqual(numbers(flowing(mail.text)))
  })

  it.each(outcomes)('print every caution and assumption whole when the outcome is %s', (outcome) => {
    const result = answer({ outcome })
    const mail = renderMail(result)
    for (const words of [...result.cautions, ...result.assumptions, ...result.rules.words]) {
      expect(flowing(mail.text)).toContain(words)
      expect(flowing(seen(mail.html))).toContain(words)
    }
  })

  it('print a caution longer than any other text whole', () => {
    const long = Array.from({ length: 900 }, (_, at) => `word${at}`).join(' ')
    const mail = renderMail({ ...answer(), cautions: [long] })
    expect(flowing(mail.text)).toContain(long)
    expect(flowing(seen(mail.html))).toContain(long)
  })
})

describe('plain text', () => {
  it('answers in the order a pilot needs', () => {
    const text = renderText(answer())
    const headings = ['WHAT YOU HAVE NOW', 'WHAT TO BUY', 'WHAT TO SET', 'WHAT IT WILL DO', 'WHAT BREAKS FIRST']
    const later = ['WHY THIS ONE', 'THREE TO CHOOSE FROM', 'THE LIST', 'WHAT THIS RESTS ON', 'BEFORE YOU FLY']
    const places = ['Yes: 360 km/h is within reach', ...headings, ...later].map((heading) => text.indexOf(heading))
    expect(places).not.toContain(-1)
    expect(places).toEqual([...places].sort((a, b) => a - b))
  })

  it('opens with what to buy, what it does, what breaks first and why, in plain words', () => {
    const first = flowing(renderText(answer()).split('WHAT YOU HAVE NOW')[0]!)
    expect(first).toContain('362 km/h steady, level')
    expect(first).toContain('25 % below the design load')
    expect(first).toContain('Buy: Merle 90 / 12 blades · Halden 3674 1450 · Lindo 160')
    expect(first).toContain(
      'Breaks first: flutter of the wing, 25 % below the design load; then speed controller current, 93 % used',
    )
    expect(first).toContain(
      'Why this one: Best all round: reaches the target with the reserve wanted. Not the safest: number 2: 1 EUR dearer than the first.',
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
    expect(flowing(renderText(answer()))).toMatch(/Refined for the target \(outside .*the list\)/)
  })

  it.each(['short', 'none'] as const)('says what removed the rest and what came nearest when %s', (outcome) => {
    const text = flowing(renderText(answer({ outcome })))
    expect(text).toContain('parts that do not go together: 402,114')
    expect(text).toContain('WHAT CAME NEAREST')
    expect(text).toContain('speed controller current 102.4 % of its limit')
    expect(text.indexOf('WHAT WAS RULED OUT')).toBeLessThan(text.indexOf('WHAT YOU HAVE NOW'))
  })

  it('names the limit that removed most when nothing is left', () => {
    expect(flowing(renderText(answer({ outcome: 'none' })))).toContain(
      'What stops it: speed controller current ruled out 201,877 of the 310,212 combinations that fit together',
    )
  })

  it('speaks of the first of the list when the target is reached, of the fastest when it is not', () => {
    const opening = (outcome: 'reached' | 'short') => flowing(renderText(answer({ outcome })).split('\nWHAT ')[0]!)
    expect(opening('reached')).toContain('Buy: Merle 90 / 12 blades')
    expect(opening('short')).toContain('Closest: buy: Corvid 90 HX')
    expect(opening('short')).toContain('Why this one: Nothing left is faster.')
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
    expect(text).toContain('\nThe best setup does 362 km/h.\n')
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
  it.each(outcomes)('stays under 90 kB with 700 setups, outcome %s', (outcome) => {
    const html = renderMailHtml(answer({ outcome, members: 700 }))
    expect(Buffer.byteLength(html)).toBeLessThanOrEqual(90_000)
  })

  it('gives the answer and the shopping list within the first 15 kB', () => {
    const start = Buffer.from(renderMailHtml(answer({ members: 700 })))
      .subarray(0, 15_000)
      .toString()
    expect(start).toContain('Breaks first')
    expect(start).toContain('Why this one')
    expect(start).toContain('What to buy')
    expect(seen(start)).toContain('771.35 EUR. If you owned none of it: 1,007.35 EUR.')
  })

  it.each(outcomes)('asks nothing of the outside and runs nothing, outcome %s', (outcome) => {
    const html = renderMailHtml(answer({ outcome, hostile: true }))
    const tags = html.match(/<[a-z][^>]*>/gi) ?? []
    expect(tags.length).toBeGreaterThan(100)
    for (const tag of tags)
      expect(tag).not.toMatch(
        /<(script|img|iframe|object|embed|link|form|svg)|\bon\w+=|\b(src|href|background)=|url\(/i,
      )
    expect(html).not.toMatch(/@import|url\(/i)
  })

  it('shows hostile names as text, whole and escaped', () => {
    const html = renderMailHtml(answer({ hostile: true }))
    expect(html).not.toContain(hostileNames[0])
    expect(html).toContain('&lt;script')
    expect(seen(html)).toContain(hostileNames[0])
    expect(html).not.toMatch(/[^\P{Cc}\n]|[\u202a-\u202e\u2066-\u2069\u200e\u200f]/u)
  })

  it('is not confused by a name that looks like a template', () => {
    const result = answer()
    const names = { ...result.names, 'fan-0': '{{x}} <% y %> JUICE_CODE_BLOCK_0_ &amp; &#60;b&#62;' }
    expect(seen(renderMailHtml({ ...result, names }))).toContain(names['fan-0'])
  })

  it('has a dark and a narrow form', () => {
    const html = renderMailHtml(answer())
    expect(html).toContain('prefers-color-scheme:dark')
    expect(html).toContain('max-width:480px')
  })
})
