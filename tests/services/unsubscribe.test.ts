// The way out of every mail: looking changes nothing, one POST ends it whatever form it comes in, a mailbox that refuses is
// left alone, and a person can have everything forgotten.
import { simpleParser } from 'mailparser'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { type MailServer, plainSmtp, startMailServer } from './mail-server.js'
import { smallRequest } from './small-catalogue.js'
import { ended, eventually, openStand, post, type Stand, statusOf } from './stand.js'
import { mailsOf, put, same, standingOf, stands, unsubscribePath } from './standing-stand.js'

// Sweeps are computed one after another here, and other suites take their share of the machine.
vi.setConfig({ testTimeout: 240_000 })

let stand: Stand
let server: MailServer

beforeAll(async () => {
  server = await startMailServer()
  stand = await openStand()
  await stand.startWorker({ mail: { kind: 'smtp', server: plainSmtp(server) }, mailsPerAddressDay: 4 })
})

afterAll(async () => {
  await stand.close()
  await server.stop()
})

const mailsTo = (address: string) => server.received.filter((mail) => mail.to.includes(address))

const accept = async (address: string, title = 'By mail'): Promise<string> => {
  const reply = await post(stand, smallRequest(stand.catalogue, { title, address }))
  expect(reply.statusCode).toBe(202)
  return reply.json<{ id: string }>().id
}

const form = (url: string, payload = '', type = 'application/x-www-form-urlencoded') =>
  stand.app.inject({ method: 'POST', url, headers: { 'content-type': type }, payload })

/** Waits for the confirmation mail, presses its button, and gives the mail back. */
async function confirmed(address: string) {
  const received = await eventually(async () => mailsTo(address)[0])
  const mail = await simpleParser(received.mime)
  const token = /\/confirm\?token=([\w-]+)/.exec(mail.text ?? '')?.[1] ?? ''
  expect((await form('/confirm', `token=${token}`)).statusCode).toBe(200)
  return { mail, token }
}

const answerState = (id: string, state: string) =>
  eventually(async () =>
    (await statusOf(stand, id)).mails.find((mail) => mail.kind === 'answer' && mail.state === state),
  )

describe('the unsubscribe link of a standing request', () => {
  it('shows a page to a GET, however often, and ends that one request with one POST (RFC 8058)', async () => {
    const address = 'standing@example.org'
    const id = await stands(stand, { address })
    const { mail: first } = await confirmed(address)
    await eventually(async () =>
      (await mailsOf(stand, id)).find((mail) => mail.state === 'accepted' && mail.kind === 'answer'),
    )
    const answer = await simpleParser(mailsTo(address).at(-1)?.mime ?? '')
    const path = unsubscribePath(answer)
    expect(path).not.toBe(unsubscribePath(first))
    for (const method of ['GET', 'HEAD', 'GET'] as const) {
      const page = await stand.app.inject({ method, url: path })
      expect([page.statusCode, page.headers['content-type']]).toEqual([200, 'text/html; charset=utf-8'])
    }
    expect(await standingOf(stand, id)).toMatchObject({ state: 'active', unsubscribed: false })
    expect((await form(path, 'List-Unsubscribe=One-Click')).statusCode).toBe(200)
    expect(await standingOf(stand, id)).toMatchObject({ state: 'paused', unsubscribed: true })
    const { version } = await put(stand, (catalogue) => ({ ...catalogue, name: 'Changed after the end' }))
    const other = await stands(stand, { address })
    await eventually(async () => (await standingOf(stand, other)).answered?.catalogue === version)
    expect((await standingOf(stand, id)).runs).toHaveLength(1)
    const resume = await stand.app.inject({
      method: 'PATCH',
      url: `/v1/standing-requests/${id}`,
      headers: { 'content-type': 'application/json' },
      payload: '{"state":"active"}',
    })
    expect(resume.json()).toMatchObject({ status: 409, type: '/problems#unsubscribed' })
    await put(stand, same)
  })

  it('ends everything at a second button, also when the form is multipart, and says so in the outbox', async () => {
    const address = 'everything@example.org'
    const id = await accept(address)
    await confirmed(address)
    await answerState(id, 'accepted')
    const path = unsubscribePath(await simpleParser(mailsTo(address).at(-1)?.mime ?? ''))
    const multipart = 'multipart/form-data; boundary=b'
    const body = '--b\r\ncontent-disposition: form-data; name="List-Unsubscribe"\r\n\r\nOne-Click\r\n--b--\r\n'
    expect((await form(path, body, multipart)).statusCode).toBe(200)
    const before = mailsTo(address).length
    const later = await accept(address, 'After the end')
    await ended(stand, later)
    expect((await answerState(later, 'suppressed')).attempts).toBe(0)
    expect(mailsTo(address)).toHaveLength(before)
  })

  it.each(['', '?token=', '?token=short', `?token=${'x'.repeat(43)}`, '?token=<script>alert(1)</script>'])(
    'is unknown as "%s", to GET and POST',
    async (query) => {
      for (const path of ['/unsubscribe', '/forget']) {
        const posted = await form(`${path}${query}`)
        expect(posted.statusCode).toBe(404)
        expect(posted.body).not.toContain('<script>')
      }
      expect((await stand.app.inject(`/unsubscribe${query}`)).statusCode).toBe(404)
    },
  )

  it('never stands in a log', () => {
    expect(stand.log.join('\n')).not.toMatch(/token=[\w-]{20}/)
  })
})

describe('an address', () => {
  it('whose mailbox refuses mail for good is suppressed, and the outbox says so', async () => {
    const address = 'bounces@example.org'
    const id = await accept(address)
    await eventually(async () => mailsTo(address)[0])
    server.behaviours.push({ code: 550, at: 'rcpt' })
    await confirmed(address)
    const mail = await answerState(id, 'failed')
    expect(mail).toMatchObject({ attempts: 1, last_error: expect.stringContaining('550') as string })
    const later = await accept(address, 'Later')
    await ended(stand, later)
    await answerState(later, 'suppressed')
    expect(mailsTo(address)).toHaveLength(1)
  })

  it('that is full for now (552) or refuses one message (550 to DATA) is not suppressed', async () => {
    const address = 'full@example.org'
    const first = await accept(address)
    await eventually(async () => mailsTo(address)[0])
    server.behaviours.push({ code: 552, at: 'rcpt' })
    await confirmed(address)
    await answerState(first, 'failed')
    server.behaviours.push({ code: 550, at: 'data' })
    await answerState(await accept(address), 'failed')
    await answerState(await accept(address), 'accepted')
  })

  it('gets its share of a day, and the rest later', async () => {
    const address = 'many@example.org'
    const ids = [
      await accept(address, '1'),
      await accept(address, '2'),
      await accept(address, '3'),
      await accept(address, '4'),
    ]
    await confirmed(address)
    for (const id of ids) await ended(stand, id)
    await eventually(async () => mailsTo(address).length === 4)
    const states = async () =>
      (await Promise.all(ids.map((id) => statusOf(stand, id)))).flatMap(({ mails }) =>
        mails.filter((mail) => mail.kind === 'answer').map((mail) => mail.state),
      )
    await eventually(async () => (await states()).filter((state) => state === 'accepted').length === 3)
    expect((await states()).sort()).toEqual(['accepted', 'accepted', 'accepted', 'pending'])
  })

  it('can be forgotten with everything kept under it, by the link in a mail', async () => {
    const address = 'forgotten@example.org'
    const id = await stands(stand, { address })
    await confirmed(address)
    await eventually(async () =>
      (await mailsOf(stand, id)).find((mail) => mail.state === 'accepted' && mail.kind === 'answer'),
    )
    const path = unsubscribePath(await simpleParser(mailsTo(address).at(-1)?.mime ?? ''))
    expect((await form(path.replace('/unsubscribe', '/forget'))).statusCode).toBe(200)
    expect((await stand.app.inject(`/v1/standing-requests/${id}`)).statusCode).toBe(410)
    const { rows } = await stand.records.pool.query(
      "select table_name as name from information_schema.tables where table_schema in ('ductwright', 'bullmq')",
    )
    for (const { name } of rows as { name: string }[]) {
      const schema = await stand.records.pool.query('select to_regclass($1) as found', [`ductwright.${name}`])
      const full = (schema.rows[0] as { found: string | null }).found === null ? `bullmq.${name}` : `ductwright.${name}`
      const hit = await stand.records.pool.query(`select 1 from ${full} t where strpos(t::text, $1) > 0 limit 1`, [
        address,
      ])
      expect({ full, rows: hit.rows.length }).toEqual({ full, rows: 0 })
    }
    expect((await form(path)).statusCode).toBe(404)
  })
})
