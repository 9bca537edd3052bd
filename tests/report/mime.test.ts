// Messages as the wire carries them, read back by an independent parser.
import { gunzipSync } from 'node:zlib'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import type { Result } from '@ductwright/contract/result'
import { renderCsv } from '@ductwright/report/csv'
import { renderMail } from '@ductwright/report/mail'
import { composeConfirmation, composeMail } from '@ductwright/report/mime'
import { type AddressObject, type ParsedMail, simpleParser } from 'mailparser'
import { describe, expect, it } from 'vitest'
import { answer } from './fixture.js'

const envelope = {
  from: 'answers@ductwright.example',
  to: 'pilot@example.org',
  messageId: '<0190-abc.7@ductwright.example>',
  date: new Date('2026-11-25T09:30:00Z'),
}

const recipients = (mail: ParsedMail) =>
  [mail.to, mail.cc, mail.bcc].flatMap((field) => field ?? []).flatMap((field: AddressObject) => field.value)

async function roundTrip(result: Result): Promise<{ parsed: ParsedMail; mime: string; subject: string }> {
  const { mime, subject } = await composeMail(result, envelope)
  return { parsed: await simpleParser(mime), mime, subject }
}

const filesOf = (mail: ParsedMail) => mail.attachments.filter((file) => !file.related)
const wordsOnly = (html: string | false | undefined) => String(html).replace(/ src="[^"]*"/g, '')

describe('answer as a message', () => {
  it('reads back with one recipient, its identity, its date and both halves', async () => {
    const result = answer()
    const { parsed, subject } = await roundTrip(result)
    expect(recipients(parsed)).toEqual([{ address: 'pilot@example.org', name: '' }])
    expect(parsed.from?.value).toEqual([{ address: 'answers@ductwright.example', name: 'Ductwright' }])
    expect(parsed.messageId).toBe(envelope.messageId)
    expect(parsed.date).toEqual(envelope.date)
    expect(parsed.subject).toBe(subject)
    const mail = await renderMail(result)
    expect(parsed.text).toBe(mail.text)
    // The parser puts the pictures in the place of their content ids.
    expect(wordsOnly(parsed.html)).toBe(wordsOnly(mail.html))
  })

  it('carries the answer and the front as files', async () => {
    const result = answer()
    const { parsed } = await roundTrip(result)
    const [json, csv, ...more] = filesOf(parsed)
    expect([json?.filename, csv?.filename]).toEqual(['ductwright-answer.json', 'ductwright-answer.csv'])
    expect(json?.content.toString()).toBe(canonicalJson(result))
    expect(csv?.content.toString()).toBe(renderCsv(result))
    expect(more).toEqual([])
  })

  it('packs a large answer so that the whole stays under 5 MB', async () => {
    const result = answer({ members: 700 })
    const { parsed, mime } = await roundTrip(result)
    const [json] = filesOf(parsed)
    expect(mime.length).toBeLessThanOrEqual(5_000_000)
    expect(json?.filename).toBe('ductwright-answer.json.gz')
    expect(gunzipSync(json?.content ?? '').toString()).toBe(canonicalJson(result))
  })

  it('is the same bytes for the same input, and other bytes for another identity', async () => {
    const first = await composeMail(answer(), envelope)
    expect((await composeMail(answer(), envelope)).mime).toBe(first.mime)
    const other = await composeMail(answer(), { ...envelope, messageId: 'other@ductwright.example' })
    expect(other.mime).not.toBe(first.mime)
  })

  it('is plain ASCII in lines a mail server takes', async () => {
    const { mime } = await roundTrip(answer({ hostile: true }))
    expect(mime).toMatch(/^[\x20-\x7e\t\r\n]*$/)
    expect(mime.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
    expect(Math.max(...mime.split('\r\n').map((line) => line.length))).toBeLessThanOrEqual(998)
  })

  it('states the answer in its subject, on one line', async () => {
    const subject = async (result: Result) => (await composeMail(result, envelope)).subject
    expect(await subject(answer())).toBe(
      '362 km/h for 771.35 EUR: Merle 90 / 12 blades with Halden 3674 1450 in Skarv composite',
    )
    const short = answer({ outcome: 'short' })
    expect(await subject(short)).toBe('Not 360 km/h with this airframe: 341 km/h at most, for 773.35 EUR')
    const poor = { ...short, blamed: 'this budget' }
    expect(await subject(poor)).toBe('Not 360 km/h with this budget: 341 km/h at most, for 773.35 EUR')
    expect(await subject(answer({ outcome: 'none' }))).toMatch(
      /^Not 360 km\/h with this airframe: speed controller current: 102\.4 % of its limit in the setup that comes nearest$/,
    )
  })

  it('lets no name break out of a header', async () => {
    const hostile = answer({ hostile: true })
    const name = 'Jet\r\nBcc: other@evil.example\r\n\r\n<b>body\u202e'
    const { parsed, subject } = await roundTrip({ ...hostile, airframe: { ...hostile.airframe, name } })
    expect(subject).not.toMatch(/[\r\n\u202e]/)
    expect(subject.length).toBeLessThanOrEqual(120)
    expect(parsed.subject).toBe(subject)
    expect(recipients(parsed).map((each) => each.address)).toEqual(['pilot@example.org'])
    expect(parsed.headers.has('bcc')).toBe(false)
  })

  it.each([
    '"pilot@example.org, other@evil.example"@example.org',
    'pilot@example.org, other@evil.example',
    'pilot@example.org\r\nBcc: other@evil.example',
    'Pilot <pilot@example.org>',
    '',
  ])('refuses the recipient %j', async (to) => {
    await expect(async () => composeMail(answer(), { ...envelope, to })).rejects.toThrow(/^address: /)
  })

  it.each(['no-host', '<a@b>\r\nBcc: x@y.example', 'two words@host', ''])(
    'refuses the identity %j',
    async (messageId) => {
      await expect(async () => composeMail(answer(), { ...envelope, messageId })).rejects.toThrow(
        /messageId must look like/,
      )
    },
  )

  it('refuses a date that is none', async () => {
    await expect(async () => composeMail(answer(), { ...envelope, date: new Date('x') })).rejects.toThrow(
      /date must be/,
    )
  })
})

describe('confirmation as a message', () => {
  const ask = {
    ...envelope,
    confirmUrl: 'https://ductwright.example/confirm/abc?x=1&y=2',
    title: 'Jet toward 360 km/h',
  }

  it('asks once, names the request, links the page, and says the link alone does nothing', async () => {
    const { mime, subject } = await composeConfirmation(ask)
    const parsed = await simpleParser(mime)
    expect(subject).toBe('Please confirm: answers to “Jet toward 360 km/h”')
    expect(recipients(parsed)).toEqual([{ address: 'pilot@example.org', name: '' }])
    expect(parsed.text).toContain(ask.confirmUrl)
    expect(parsed.html).toContain('href="https://ductwright.example/confirm/abc?x=1&amp;y=2"')
    expect(parsed.text).toContain('press its button')
    expect(parsed.attachments).toEqual([])
  })

  it('keeps a hostile title inert', async () => {
    const { mime, subject } = await composeConfirmation({ ...ask, title: '<script>x</script>\r\nBcc: a@b.example' })
    const parsed = await simpleParser(mime)
    expect(subject).not.toMatch(/[\r\n]/)
    expect(parsed.html).not.toContain('<script>')
    expect(parsed.headers.has('bcc')).toBe(false)
  })

  it.each(['javascript:alert(1)', 'data:text/html,x', 'not an address', 'https://user:pw@evil.example/'])(
    'refuses the link %j',
    async (confirmUrl) => {
      await expect(async () => composeConfirmation({ ...ask, confirmUrl })).rejects.toThrow(/confirmUrl must be/)
    },
  )

  it('is the same bytes for the same input', async () => {
    expect((await composeConfirmation(ask)).mime).toBe((await composeConfirmation(ask)).mime)
  })
})
