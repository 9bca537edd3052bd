// The letter about a changed answer: old and new side by side, the rows that did it in one sentence, stand-ins with their
// loss, what is on offer now; the same numbers in text and HTML, and nothing that acts.
import { columns } from '@ductwright/contract/inert'
import type { Member, Receipt, Result } from '@ductwright/contract/result'
import { answerChange, type ChangedRow } from '@ductwright/report/change-letter/answer-change'
import { batchMail, changeMail, troubleMail } from '@ductwright/report/change-letter/change-mail'
import { differenceWords } from '@ductwright/report/change-letter/difference-words'
import { reasonSentence } from '@ductwright/report/change-letter/reason-sentence'
import { describe, expect, it } from 'vitest'
import { answer, hostileNames } from './fixture.js'
import { itemSummary } from './fixture-batch.js'
import { takenOver } from './fixture-receipt.js'

const url = 'https://jets.example.org/unsubscribe?token=0123456789abcdefghijklmnopqrstuvwxyzABCDEFG'
const flowing = (text: string): string => text.replace(/\s+/g, ' ')

/** What a reader sees of the HTML. */
const seen = (html: string): string =>
  html
    .slice(html.indexOf('<body'))
    .replace(/<span[^>]*>|<\/span>|<wbr>/g, '')
    .replace(/<[^>]*>/g, '\n')
    .replace(/&#(\d+);/g, (_, code: string) => String.fromCodePoint(Number(code)))
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&quot;/g, '"')
    .replace(/&amp;/g, '&')
    .replaceAll('\u00a0', ' ')

const numbers = (text: string): string[] =>
  (text.match(/−?\d[\d,.:]*/g) ?? []).map((number) => number.replace(/[,.:]+$/, '')).sort()

const row = (id: string, kind: ChangedRow['kind'], words: string): ChangedRow => ({ id, kind, words })

/** The answer with its members changed. */
const with_ = (result: Result, change: (member: Member) => Member): Result => ({
  ...result,
  front: result.front.map(change),
})

/** Of a target that both answers reach with their first. */
const answered = answer()
const { target } = answered.understood
const old: Result = {
  ...answered,
  understood: { ...answered.understood, target: { ...target, speed: target.speed - 20 / 3.6 } },
}
const best = old.front[0] as Member

/** Another motor everywhere, slower and dearer. */
const now = with_(
  {
    ...old,
    names: { ...old.names, 'motor-new': 'Torva 3771 1080' },
    catalogue: { ...old.catalogue, version: 'f'.repeat(64) },
  },
  (member) =>
    member.setup.motor === best.setup.motor
      ? {
          ...member,
          setup: { ...member.setup, motor: 'motor-new' },
          raw: { ...member.raw, speed_km_h: member.raw.speed_km_h - 14, cost: member.raw.cost + 25 },
        }
      : member,
)
const gone = row(best.setup.motor, 'gone', 'gone: Halden, motor by Sollan, was 180 EUR')
const fresh = row('motor-new', 'new', 'new: Torva 3771 1080, motor by Sollan, 205 EUR')
const elsewhere = row('pack-nobody-lists', 'dearer', 'Fjeld is 3 EUR dearer (90 → 93 EUR)')

it('the letter about a changed answer says how its list was found, where that is known', () => {
  const text = (given?: Receipt) => flowing(changeMail(old, now, [], url, given).text)
  expect(text()).not.toContain('budget: 18,721')
  expect(text(takenOver)).toMatch(/taken over from the answer on catalogue version 77e0c4b1.* budget: 18,721/)
})

describe('the letter about a changed answer', () => {
  const mail = changeMail(old, now, [gone, fresh, elsewhere], url)
  const text = flowing(mail.text)

  it('puts old and new side by side and says in one sentence which rows did it', () => {
    const [sentence = ''] = /What did it: [^.]*(?:\d\.\d[^.]*)*\./.exec(text) ?? []
    expect(sentence).toContain(gone.words)
    expect(sentence).toContain(fresh.words)
    expect(sentence).not.toContain('Fjeld')
    expect(text).toMatch(/Motor .* Torva 3771 1080/)
    expect(text).toContain('Against the setup until now: 14 km/h slower, 25 EUR dearer')
  })

  it('shows long names whole, side by side in text as well', () => {
    const pack = 'Zellwig Harlin 6S 4000 mAh 80C with the long leads'
    const names = { ...now.names, [best.setup.pack]: pack }
    const named = changeMail({ ...old, names }, { ...now, names }, [gone], url)
    const lines = named.text.split('\n')
    expect(Math.max(...lines.map((line) => (line === url ? 0 : columns(line))))).toBeLessThanOrEqual(76)
    const from = lines.findIndex((line) => line.startsWith('Packs '))
    const cells = lines.slice(
      from,
      lines.findIndex((line, at) => at > from && /^\S/.test(line)),
    )
    expect(cells.length).toBeGreaterThan(1)
    const column = lines[from - 1]?.indexOf('Lindo', 20) ?? 0
    for (const side of [cells.map((line) => line.slice(14, column)), cells.map((line) => line.slice(column))])
      expect(flowing(side.join(' ')).trim()).toBe(`2 × ${pack} in series`)
    expect(seen(named.html).split(`2 × ${pack} in series`).length).toBeGreaterThan(2)
  })

  it('names what stands in for a part that is gone, with the loss, and what is on offer now', () => {
    expect(text).toContain('GONE, AND WHAT STANDS IN')
    expect(text).toMatch(/nearest now is [^;]*Torva 3771 1080[^;]*: 14 km\/h slower, 25 EUR dearer/)
    expect(text).toContain('ON OFFER NOW, AND NOT BEFORE')
  })

  it('goes on with the whole new answer, its cautions included, and ends with the way out on one line', () => {
    for (const words of [...now.cautions, ...now.assumptions]) expect(text).toContain(words)
    expect(mail.text.split('\n')).toContain(url)
    expect(mail.html).toContain(url.replace(/&/g, '&amp;'))
    expect(mail.attachments.map(({ filename }) => filename)).toEqual([
      'ductwright-answer.json',
      'ductwright-answer.csv',
    ])
  })

  it('tells the same numbers in text and HTML, in lines of at most 76 columns, small enough to open anywhere', () => {
    expect(numbers(seen(mail.html))).toEqual(numbers(mail.text))
    const long = mail.text.split('\n').filter((line) => columns(line) > 76 && line !== url)
    expect(long).toEqual([])
    expect(Buffer.byteLength(mail.html)).toBeLessThan(90_000)
    const head = seen(mail.html.slice(0, 15_000))
    for (const words of ['What did it', 'until now']) expect(head).toContain(words)
  })

  it('stays harmless under hostile names and rows', () => {
    const hostile = answer({ hostile: true })
    const rows = hostileNames.map((name, at) =>
      row([...Object.keys(hostile.names)][at] ?? name, 'changed', `${name} changed`),
    )
    const { text, html, subject } = changeMail(
      hostile,
      with_(hostile, (member) => ({ ...member, raw: { ...member.raw, speed_km_h: 99 } })),
      rows,
      url,
    )
    expect(html).not.toMatch(/<script|<img/)
    for (const part of [text, html, subject])
      for (const mark of ['\u202e', '\u2066', '\u2069', '\0', '\u001b']) expect(part).not.toContain(mark)
    expect(subject).not.toContain('\n')
  })

  it.each([
    ['nothing holds every limit any more', old, answer({ outcome: 'none' }), /nothing holds every limit any more/],
    ['something does where nothing did', answer({ outcome: 'none' }), old, /where nothing did before/],
    [
      'the setup is the same',
      old,
      with_(old, (member) => ({ ...member, raw: { ...member.raw, cost: 1 } })),
      /the setup has not/,
    ],
  ])('opens with what a reader must know: %s', (_what, before, after, words) => {
    expect(flowing(changeMail(before, after, [], url).text)).toMatch(words)
  })
})

describe('the reason', () => {
  const sentence = (after: Result, rows: readonly ChangedRow[]) =>
    reasonSentence(answerChange(old, after, rows), old, after)

  it('counts rows beyond a few, and still is one sentence', () => {
    const many = Array.from({ length: 7 }, (_, n) => row(best.setup.motor, 'changed', `row ${n} changed`))
    expect(sentence(now, many)).toBe(
      'What did it: row 0 changed; row 1 changed; row 2 changed; row 3 changed; 3 more rows.',
    )
  })

  it('looks at the other setups of the list, then at the models, then at the rest of the catalogue', () => {
    const other = old.front.find(({ setup }) => setup.pack !== best.setup.pack)?.setup.pack ?? ''
    const near = answerChange(old, old, [row(other, 'dearer', 'the other pack is dearer')])
    expect(near.responsible).toEqual([])
    expect(reasonSentence(near, old, old)).toContain('in other setups of the list: the other pack is dearer')
    const models = { ...now, model_version: '9.9.9' }
    expect(sentence(models, [])).toMatch(/^What did it: the models are version 9\.9\.9, were .*, and no row/)
    expect(sentence(models, [gone])).toMatch(/was 180 EUR; and the models are version 9\.9\.9/)
    expect(sentence(now, [elsewhere])).toBe(
      'What did it: 1 row of the catalogue changed around these setups, and none of their own parts.',
    )
    expect(sentence(now, [])).toContain('nothing in the catalogue or the models')
  })
})

it('a difference names only what moved by more than the resolution', () => {
  const from = { speed_km_h: 300, flight_time_s: 240, cost: 500, margin: 0.25 }
  const resolution = { speed_km_h: 2, flight_time_s: 5, cost: 5, margin: 0.02 }
  const words = (to: Partial<typeof from>) =>
    differenceWords({ from, to: { ...from, ...to }, resolution, currency: 'EUR' }).replaceAll('\u00a0', ' ')
  expect(words({})).toBe('no difference that counts')
  expect(words({ speed_km_h: 302, cost: 496 })).toBe('no difference that counts')
  expect(words({ speed_km_h: 310, flight_time_s: 200, cost: 460, margin: 0.1 })).toBe(
    '10 km/h faster, 0:40 min of flight shorter, 40 EUR cheaper, 15 % less in reserve',
  )
})

it('the letter of a question that cannot be answered any more says why and what to do', () => {
  const { text, html, subject, attachments } = troubleMail(
    'My <b>jet</b>',
    '/required/0: no part has the id "pack-x"',
    url,
  )
  expect(flowing(text)).toContain('no part has the id "pack-x"')
  expect(html).not.toContain('<b>jet')
  expect([subject, attachments]).toEqual(['No answer any more: My <b>jet</b>', []])
  expect(text.split('\n')).toContain(url)
})

it('the letter of a batch does not call a setup that misses the target one that reaches it', () => {
  const { raw } = best
  const row = (target_km_h: number) => {
    const summary = itemSummary({ target_km_h })
    const item = { index: 0, request: 'r', title: 'One', state: 'answered', cause: null, summary }
    const { names } = summary
    const all = { format: 'ductwright-batch/1' as const, title: 'One', currency: 'EUR', staircases: [], names }
    return flowing(batchMail({ ...all, items: [item] }, url).text)
  }
  expect(row(raw.speed_km_h)).toMatch(/ no\. .* — reached: Merle/)
  expect(row(raw.speed_km_h + 0.4)).toContain('— reached by others of its list, ranked first: Merle')
  expect(row(Math.floor(raw.speed_km_h) + 0.9)).toContain(` ${Math.floor(raw.speed_km_h * 10) / 10} `)
})

it('the letter of a batch tells the same numbers in text and HTML, and names what failed', () => {
  const summary = itemSummary({ title: 'Six jets <script>', airframe_name: 'Jet <img>', names: old.names })
  const item = { index: 0, request: 'r', title: 'One', state: 'answered', cause: null, summary }
  const failed = { ...item, index: 1, title: 'Two', state: 'failed', cause: 'too\u202e hard', summary: null }
  const staircases = [{ airframe: 'a', airframe_name: 'Jet <img>', treatments: ['polish'], steps: summary.steps }]
  const { text, html, subject } = batchMail(
    {
      format: 'ductwright-batch/1',
      title: 'Six jets <script>',
      currency: 'EUR',
      items: [item, failed],
      staircases,
      names: old.names,
    },
    url,
  )
  expect(numbers(seen(html))).toEqual(numbers(text))
  expect(html).not.toMatch(/<script|<img/)
  expect(flowing(text)).toContain('1 of 2 requests reaches its target')
  expect(flowing(text)).toMatch(/WITHOUT AN ANSWER .* 2, Two: too. hard/)
  expect(subject).toContain('1 of 2 requests')
})
