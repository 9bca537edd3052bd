// The mail as it arrives: composed, sent through a mail server on this machine, and read back by an independent parser.
import { gunzipSync, inflateSync } from 'node:zlib'
import type { Result } from '@ductwright/contract/result'
import { resultSchema } from '@ductwright/contract/result-schema'
import { composeMail } from '@ductwright/report/mime'
import { SmtpDelivery } from '@ductwright/worker/mail/smtp-delivery'
import { parse } from 'csv-parse/sync'
import { type Attachment, type ParsedMail, simpleParser } from 'mailparser'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type MailServer, type Received, startMailServer } from '../services/mail-server.js'
import { answer } from './fixture.js'
import { numbers, seen } from './read-mail.js'

const from = 'answers@ductwright.example'
const to = 'pilot@example.org'

let server: MailServer
beforeAll(async () => {
  server = await startMailServer()
})
afterAll(() => server.stop())

interface Arrived {
  readonly received: Received
  readonly mail: ParsedMail
  readonly html: string
  readonly pictures: readonly Attachment[]
  readonly files: readonly Attachment[]
}

async function sent(result: Result): Promise<Arrived> {
  const messageId = `<${result.answer_hash.slice(0, 24)}@ductwright.example>`
  const { mime } = await composeMail(result, { from, to, messageId, date: new Date('2026-11-25T09:30:00Z') })
  const plain = { host: '127.0.0.1', port: server.port, secure: false, requireTls: false, auth: null }
  const delivery = new SmtpDelivery({ ...plain, certificateAuthority: null }, 20_000)
  const outcome = await delivery.deliver({ id: 'm', from, to, mime }, new AbortController().signal)
  expect(outcome).toEqual({ state: 'accepted' })
  const received = server.received.at(-1)!
  expect(received.mime).toBe(mime)
  const mail = await simpleParser(received.mime, { keepCidLinks: true })
  const pictures = mail.attachments.filter(({ related }) => related)
  const files = mail.attachments.filter(({ related }) => !related)
  return { received, mail, html: String(mail.html), pictures, files }
}

/** Width, height and pixels of a picture, read by its format: 8 bits a channel, not interlaced (PNG). */
function decoded(png: Buffer): { readonly width: number; readonly height: number; readonly bytes: number } {
  expect(png.subarray(0, 8).toString('hex')).toBe('89504e470d0a1a0a')
  const data: Buffer[] = []
  for (let at = 8; at < png.length; ) {
    const length = png.readUInt32BE(at)
    if (png.toString('latin1', at + 4, at + 8) === 'IDAT') data.push(png.subarray(at + 8, at + 8 + length))
    at += 12 + length
  }
  const channels = png[25] === 6 ? 4 : 3
  const [width, height] = [png.readUInt32BE(16), png.readUInt32BE(20)]
  const bytes = inflateSync(Buffer.concat(data)).length
  expect(bytes).toBe((width * channels + 1) * height)
  return { width, height, bytes }
}

const opened = ({ filename, content }: Attachment): string =>
  (filename?.endsWith('.gz') ? gunzipSync(content) : content).toString('utf8')

describe.each([
  ['reached', answer()],
  ['reached by 700 setups', answer({ members: 700 })],
  ['short', answer({ outcome: 'short' })],
  ['none', answer({ outcome: 'none' })],
  ['reached, under hostile names', answer({ hostile: true })],
  ['short, under hostile names', answer({ outcome: 'short', hostile: true })],
] as const)('an answer that is %s', (_name, result) => {
  let arrived: Arrived
  beforeAll(async () => {
    arrived = await sent(result)
  })

  it('arrives at one recipient, with one of every header', () => {
    expect(arrived.received.to).toEqual([to])
    const fields = [arrived.mail.to, arrived.mail.cc, arrived.mail.bcc].flatMap((field) => field ?? [])
    expect(fields.flatMap(({ value }) => value.map(({ address }) => address))).toEqual([to])
    const names = arrived.mail.headerLines.map(({ key }) => key)
    expect(names.length).toBe(new Set(names).size)
    const expected = ['from', 'to', 'subject', 'message-id', 'date', 'auto-submitted', 'mime-version', 'content-type']
    expect([...names].sort()).toEqual(expected.sort())
  })

  it('tells the same numbers in text and HTML, each as often', () => {
    const text = numbers(arrived.mail.text ?? '')
    expect(text.length).toBeGreaterThan(30)
    expect(numbers(seen(arrived.html))).toEqual(text)
  })

  it('tells nothing in its subject that the text does not tell', () => {
    const told = new Set(numbers(arrived.mail.text ?? ''))
    const subject = arrived.mail.subject ?? ''
    // A name cut at the end of a subject may end in half a number.
    const whole = numbers(subject).filter((number) => !subject.endsWith(`${number}…`))
    expect(whole.filter((number) => !told.has(number))).toEqual([])
  })

  it('keeps its size', () => {
    expect(Buffer.byteLength(arrived.html)).toBeLessThanOrEqual(90_000)
    expect(arrived.received.mime.length).toBeLessThanOrEqual(5_000_000)
  })

  it('brings every picture that it shows, and shows every one it brings', () => {
    const shown = [...arrived.html.matchAll(/src="cid:([^"]+)"/g)].map((match) => `<${match[1]}>`)
    expect(arrived.pictures.map(({ contentId }) => contentId).sort()).toEqual([...shown].sort())
    expect(shown.length > 0).toBe(result.front.length > 0)
    for (const picture of arrived.pictures) {
      expect(picture.contentType).toBe('image/png')
      expect(decoded(picture.content).width).toBeGreaterThanOrEqual(600)
    }
  })

  it('attaches the answer as JSON that the contract allows, and every setup as CSV', () => {
    const [json, csv] = arrived.files
    expect(arrived.files.map(({ filename }) => filename?.replace('.gz', ''))).toEqual([
      'ductwright-answer.json',
      'ductwright-answer.csv',
    ])
    const read: unknown = JSON.parse(opened(json!))
    expect(resultSchema.safeParse(read).error).toBeUndefined()
    expect(read).toEqual(JSON.parse(JSON.stringify(result)))
    expect(parse(opened(csv!), { columns: true })).toHaveLength(result.front.length)
  })
})

it('lets neither title nor names nor words add a header, a recipient or a part', async () => {
  const attack =
    'x\r\nBcc: other@evil.example\r\nContent-Type: text/plain\r\n\r\nbody\r\n.\r\nRCPT TO:<other@evil.example>'
  const result = answer({ outcome: 'short' })
  const names = Object.fromEntries(Object.keys(result.names).map((id) => [id, attack]))
  const understood = { ...result.understood, title: attack }
  const airframe = { ...result.airframe, name: attack }
  const { received, mail } = await sent({ ...result, names, understood, airframe, headline: attack })
  expect(received.to).toEqual([to])
  expect(mail.headers.has('bcc')).toBe(false)
  expect(mail.subject).not.toMatch(/[\r\n]/)
  expect(mail.attachments.filter(({ related }) => !related)).toHaveLength(2)
})
