// A worker killed without warning around the moment a mail is handed over: whatever the moment, the mail arrives, at most
// twice, and both copies are the same mail, byte for byte (the promise behind RFC 1047).
import { type ChildProcess, spawn } from 'node:child_process'
import { cp, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { sha256Hex } from '@ductwright/contract/canonical-json'
import type { MailRow } from '@ductwright/records/mail-records'
import { openRecords } from '@ductwright/records/open-records'
import { composeMessage } from '@ductwright/report/mime'
import { afterAll, afterEach, beforeAll, expect, it, vi } from 'vitest'
import { freshDataFolder, type ScratchFolder } from '../servers/embedded-folder.js'
import { type MailServer, startMailServer } from './mail-server.js'

vi.setConfig({ testTimeout: 240_000 })

const script = fileURLToPath(new URL('mail-worker.mjs', import.meta.url))
const address = 'pilot@example.org'
const messageId = '<the-mail@example.org>'
const open: (() => Promise<unknown>)[] = []

afterEach(async () => {
  for (const close of open.splice(0).toReversed()) await close()
})

/** A store with an answered request whose mail nobody has sent yet; every test works on a copy of it. */
let store: ScratchFolder
let id = ''

beforeAll(async () => {
  store = await freshDataFolder()
  const records = await openRecords({ dataFolder: store.path })
  await records.putCatalogue('version', 'none', '{}')
  const accepted = await records.acceptRequest({
    title: 'Through a kill',
    address,
    body: '{}',
    bodyHash: sha256Hex('{}'),
    idempotencyKey: null,
    catalogueVersion: 'version',
    modelVersion: '1',
  })
  const request = accepted.outcome === 'mismatch' ? expect.unreachable() : accepted.request
  id = request.id
  const letter = { subject: 'Your answer', text: 'In words\n', html: '<p>In words</p>', attachments: [] }
  const envelope = { from: 'jets@example.org', to: address, messageId, date: new Date() }
  const { subject, mime } = await composeMessage(letter, envelope)
  await records.planSweep(request.sweepId, [])
  const answer = { result: '{}', answerHash: 'hash', receipt: '{}' }
  const mail = { id: 'the-mail', address, subject, messageId, mime }
  await records.finishSweep(request.sweepId, answer, mail, { requireConfirmed: false })
  await records.close()
})

afterAll(() => store.remove())

function startWorker(dataFolder: string, server: MailServer) {
  const child = spawn(process.execPath, [script, dataFolder, String(server.port), id], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const settled = new Promise<MailRow[]>((resolve) => {
    createInterface({ input: child.stdout }).on('line', (line) => {
      if (line.startsWith('settled ')) resolve(JSON.parse(line.slice('settled '.length)) as MailRow[])
    })
  })
  const ended = new Promise((resolve) => child.once('close', resolve))
  open.push(async () => {
    child.kill('SIGKILL')
    await ended
  })
  return { child, ended, settled }
}

type Moment =
  | 'asked for the recipient'
  | 'before the message'
  | 'after the message, before the reply'
  | 'after the reply'

/** A mail server that calls `kill` the first time the moment comes, and from then on is an ordinary one. */
async function serverKillingAt(moment: Moment, kill: () => void): Promise<MailServer> {
  let armed = true
  const now = (here: Moment): void => {
    if (!armed || here !== moment) return
    armed = false
    kill()
  }
  const stored: { from: string; to: string[]; mime: string; secure: boolean }[] = []
  const server = await startMailServer({
    onRcptTo(_address, _session, done) {
      now('asked for the recipient')
      done()
    },
    onData(stream, session, done) {
      now('before the message')
      const chunks: Buffer[] = []
      stream.on('data', (chunk: Buffer) => chunks.push(chunk))
      stream.on('end', () => {
        const to = session.envelope.rcptTo.map((recipient) => recipient.address)
        stored.push({ from: '', to, mime: Buffer.concat(chunks).toString('utf8'), secure: false })
        now('after the message, before the reply')
        done()
        now('after the reply')
      })
    },
  })
  return { ...server, received: stored }
}

it.each<[Moment, number]>([
  ['asked for the recipient', 1],
  ['before the message', 2],
  ['after the message, before the reply', 2],
  ['after the reply', 2],
])('killed when %s, it still mails the answer, at most %i times and always the same', async (moment, most) => {
  const path = await mkdtemp(join(tmpdir(), 'ductwright-mail-killed-'))
  open.push(() => rm(path, { recursive: true, force: true }))
  await cp(store.path, path, { recursive: true })
  let first: ChildProcess | null = null
  const server = await serverKillingAt(moment, () => first?.kill('SIGKILL'))
  open.push(() => server.stop())
  const killed = startWorker(path, server)
  first = killed.child
  await killed.ended
  const mails = await startWorker(path, server).settled
  const copies = server.received
  expect(copies.length).toBeGreaterThan(0)
  expect(copies.length).toBeLessThanOrEqual(most)
  expect(new Set(copies.map(({ mime }) => mime)).size).toBe(1)
  expect(copies.map(({ to }) => to)).toEqual(copies.map(() => [address]))
  expect(mails).toMatchObject([{ kind: 'answer', state: 'accepted', messageId }])
  expect(copies[0]?.mime).toContain(messageId)
})
