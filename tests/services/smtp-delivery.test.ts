// Handing one mail to a mail server: what each answer of the server, and each way of losing it, is recorded as.

import type { AddressInfo } from 'node:net'
import { createServer, type Server } from 'node:net'
import type { OutgoingMail } from '@ductwright/worker/mail/delivery'
import { SmtpDelivery } from '@ductwright/worker/mail/smtp-delivery'
import type { SmtpServer } from '@ductwright/worker/settings'
import { afterEach, describe, expect, it } from 'vitest'
import { type MailServer, startMailServer } from './mail-server.js'
import { testCertificate } from './test-certificate.js'

const mail: OutgoingMail = {
  id: 'm1',
  from: 'jets@example.org',
  to: 'pilot@example.org',
  mime: 'From: jets@example.org\r\nTo: pilot@example.org\r\nMessage-ID: <m1@example.org>\r\nSubject: t\r\n\r\nHello\r\n.dot\r\n',
}

const stops: (() => Promise<void>)[] = []
afterEach(async () => {
  for (const stop of stops.splice(0)) await stop()
})

async function server(options = {}): Promise<MailServer> {
  const started = await startMailServer(options)
  stops.push(started.stop)
  return started
}

function deliver(
  port: number,
  changes: Partial<SmtpServer> = {},
  timeoutMs = 2000,
  signal = new AbortController().signal,
  outgoing = mail,
) {
  const plain: SmtpServer = {
    host: '127.0.0.1',
    port,
    secure: false,
    requireTls: false,
    auth: null,
    certificateAuthority: null,
  }
  return new SmtpDelivery({ ...plain, ...changes }, timeoutMs).deliver(outgoing, signal)
}

describe('a mail', () => {
  it('is accepted with exactly the bytes composed and one recipient', async () => {
    const { port, received } = await server()
    expect(await deliver(port)).toEqual({ state: 'accepted' })
    expect(received).toEqual([{ from: mail.from, to: [mail.to], mime: mail.mime, secure: false }])
  })

  it.each([
    ['recipient', 'rcpt'],
    ['message', 'data'],
  ] as const)('refused for now at the %s is tried later (RFC 5321, 4yz)', async (_name, at) => {
    const { port, behaviours } = await server()
    behaviours.push({ code: 450, at })
    expect(await deliver(port)).toMatchObject({ state: 'later', reason: expect.stringContaining('450') as string })
  })

  it.each([
    ['recipient', 'rcpt'],
    ['message', 'data'],
  ] as const)('refused for good at the %s is not tried again (RFC 5321, 5yz)', async (_name, at) => {
    const { port, behaviours } = await server()
    behaviours.push({ code: 550, at })
    expect(await deliver(port)).toMatchObject({ state: 'refused', reason: expect.stringContaining('550') as string })
  })

  it('is unknown when the connection is lost between the final dot and the reply (RFC 1047)', async () => {
    const { port, behaviours, received } = await server()
    behaviours.push('drop-after-data')
    expect(await deliver(port)).toMatchObject({ state: 'unknown' })
    expect(received).toHaveLength(1)
  })

  it.each([
    'a@example.org, b@example.org',
    'a@example.org\r\nRCPT TO:<b@example.org>',
    '"A, b@example.org" <a@example.org>',
  ])('is refused before any connection when it is for "%s"', async (to) => {
    const { port, connections } = await server()
    const signal = new AbortController().signal
    expect(await deliver(port, {}, 2000, signal, { ...mail, to })).toMatchObject({ state: 'refused' })
    expect(connections()).toBe(0)
  })

  it('is tried later when nobody listens', async () => {
    const { port, stop } = await startMailServer()
    await stop()
    expect(await deliver(port)).toMatchObject({ state: 'later' })
  })

  it('is tried later when the server says nothing', async () => {
    const silent = createServer(() => {})
    await listening(silent)
    stops.push(() => new Promise((resolve) => silent.close(() => resolve())))
    expect(await deliver((silent.address() as AddressInfo).port, {}, 200)).toMatchObject({ state: 'later' })
  })

  it('ends at once, to be tried later, when the worker stops', async () => {
    const silent = createServer(() => {})
    await listening(silent)
    stops.push(() => new Promise((resolve) => silent.close(() => resolve())))
    const stop = new AbortController()
    const delivery = deliver((silent.address() as AddressInfo).port, {}, 30_000, stop.signal)
    stop.abort()
    expect(await delivery).toMatchObject({ state: 'later' })
  })
})

describe('TLS', () => {
  it('is never given up: a server without STARTTLS gets no mail when TLS is required', async () => {
    const { port, received } = await server()
    expect(await deliver(port, { requireTls: true })).toMatchObject({ state: 'later' })
    expect(received).toEqual([])
  })

  it('from the first byte does not fall back to plain text', async () => {
    const { port, received } = await server()
    expect(await deliver(port, { secure: true })).toMatchObject({ state: 'later' })
    expect(received).toEqual([])
  })

  const certificate = testCertificate()
  const withTls = { ...certificate, disabledCommands: [] }

  it('refuses a certificate nobody vouches for, also where TLS was not required', async () => {
    const { port, received } = await server(withTls)
    expect(await deliver(port, { host: 'localhost' })).toMatchObject({
      state: 'later',
      reason: expect.stringMatching(/certificate/i) as string,
    })
    expect(received).toEqual([])
  })

  it.each([
    ['offered (STARTTLS)', { ...withTls }, {}],
    ['required (STARTTLS)', { ...withTls }, { requireTls: true }],
    ['from the first byte', { ...withTls, secure: true }, { secure: true }],
  ])('is used where it is %s and the certificate is vouched for', async (_name, serverOptions, clientOptions) => {
    const { port, received } = await server(serverOptions)
    const known = { host: 'localhost', certificateAuthority: certificate.cert, ...clientOptions }
    expect(await deliver(port, known)).toEqual({ state: 'accepted' })
    expect(received).toMatchObject([{ secure: true }])
  })

  it('refuses a good certificate for another name', async () => {
    const { port, received } = await server({ ...withTls, secure: true })
    const outcome = await deliver(port, { secure: true, certificateAuthority: certificate.cert })
    expect(outcome).toMatchObject({ state: 'later' })
    expect(received).toEqual([])
  })
})

const listening = (server: Server): Promise<void> =>
  new Promise((resolve) => server.listen(0, '127.0.0.1', () => resolve()))
