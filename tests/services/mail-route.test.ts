// Mail through a server: confirmed addresses only, retries, refusals, and the promise that a mail whose fate is unknown
// goes out once more with the same id and the same bytes.
import { simpleParser } from 'mailparser'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type MailServer, plainSmtp, startMailServer } from './mail-server.js'
import { smallRequest } from './small-catalogue.js'
import { ended, eventually, openStand, post, type Stand, statusOf } from './stand.js'

let stand: Stand
let server: MailServer

beforeAll(async () => {
  server = await startMailServer()
  stand = await openStand()
  await stand.startWorker({ mail: { kind: 'smtp', server: plainSmtp(server) } })
})

afterAll(async () => {
  await stand.close()
  await server.stop()
})

const accept = async (address: string, title = 'By mail'): Promise<string> => {
  const reply = await post(stand, smallRequest(stand.catalogue, { title, address }))
  expect(reply.statusCode).toBe(202)
  return reply.json<{ id: string }>().id
}

const mailsTo = (address: string) => server.received.filter((mail) => mail.to.includes(address))

async function confirmed(address: string): Promise<void> {
  const id = await accept(address, 'First contact')
  const token = await tokenFor(address)
  expect((await confirm(token)).statusCode).toBe(200)
  await settled(id, 'accepted')
  server.behaviours.splice(0)
}

async function tokenFor(address: string): Promise<string> {
  const mail = await eventually(async () => mailsTo(address)[0])
  const { text = '' } = await simpleParser(mail.mime)
  return /http:\/\/jets\.example\.org\/confirm\?token=([\w-]+)/.exec(text)?.[1] ?? ''
}

const confirm = (token: string) =>
  stand.app.inject({
    method: 'POST',
    url: '/confirm',
    headers: { 'content-type': 'application/x-www-form-urlencoded' },
    payload: `token=${token}`,
  })

/** Waits until the answer's mail is in this state. */
const settled = (id: string, state: string) =>
  eventually(async () =>
    (await statusOf(stand, id)).mails.find((mail) => mail.kind === 'answer' && mail.state === state),
  )

describe('a new address', () => {
  it('is asked once, and gets the answer only after a person has confirmed with the button', async () => {
    const address = 'new@example.org'
    const id = await accept(address)
    await ended(stand, id)
    const token = await tokenFor(address)
    expect((await statusOf(stand, id)).mails.map((mail) => [mail.kind, mail.state]).sort()).toEqual([
      ['answer', 'held'],
      ['confirmation', expect.stringMatching(/sending|accepted/) as string],
    ])
    expect(server.received.at(-1)?.to).toEqual([address])

    const page = await stand.app.inject(`/confirm?token=${token}`)
    expect([page.statusCode, page.headers['content-type']]).toEqual([200, 'text/html; charset=utf-8'])
    expect(page.body).toContain(
      `<form method="post" action="/confirm"><input type="hidden" name="token" value="${token}">`,
    )
    const head = await stand.app.inject({ method: 'HEAD', url: `/confirm?token=${token}` })
    expect(head.statusCode).toBe(200)
    expect((await settled(id, 'held')).attempts).toBe(0)

    expect((await confirm(token)).body).toContain('Address confirmed')
    await settled(id, 'accepted')
    expect(mailsTo(address)).toHaveLength(2)
  })

  it('is not asked twice, and gets everything that waited when it confirms', async () => {
    const address = 'twice@example.org'
    const ids = [await accept(address, 'One'), await accept(address, 'Two')]
    for (const id of ids) await ended(stand, id)
    await confirm(await tokenFor(address))
    for (const id of ids) await settled(id, 'accepted')
    expect(mailsTo(address)).toHaveLength(3)
  })

  it.each(['', 'short', 'x'.repeat(43), "' or 1=1 --", '<script>alert(1)</script>'])(
    'is not confirmed by the token "%s"',
    async (token) => {
      const reply = await confirm(encodeURIComponent(token))
      expect(reply.statusCode).toBe(404)
      expect(reply.body).not.toContain('<script>')
      expect((await stand.app.inject(`/confirm?token=${encodeURIComponent(token)}`)).body).not.toContain('<script>')
    },
  )
})

describe('an answer', () => {
  const address = 'pilot@example.org'
  beforeAll(() => confirmed(address))

  const answerMails = (id: string, mailId: string) =>
    server.received.filter((mail) => mail.mime.includes(`<${mailId}@`) && id !== '')

  it('goes to a confirmed address at once, to exactly one recipient', async () => {
    const id = await accept(address)
    const { id: mailId, attempts } = await settled(id, 'accepted')
    expect(attempts).toBe(1)
    expect(answerMails(id, mailId)).toMatchObject([{ from: 'jets@example.org', to: [address] }])
  })

  it('is sent again after "try later", with the same id and bytes', async () => {
    server.behaviours.push({ code: 450, at: 'data' }, { code: 421, at: 'rcpt' })
    const id = await accept(address)
    const { id: mailId, attempts } = await settled(id, 'accepted')
    expect(attempts).toBe(3)
    expect(answerMails(id, mailId)).toHaveLength(1)
  })

  it('that is refused for good is given up with the reason, and the request stays answered', async () => {
    server.behaviours.push({ code: 554, at: 'data' })
    const id = await accept(address)
    const mail = await settled(id, 'failed')
    expect(mail).toMatchObject({ attempts: 1, last_error: expect.stringContaining('554') as string })
    expect((await statusOf(stand, id)).state).toBe('answered')
  })

  it('lost between the final dot and the reply goes out at most twice, with the same id and bytes (RFC 1047)', async () => {
    server.behaviours.push('drop-after-data')
    const id = await accept(address)
    const { id: mailId, attempts } = await settled(id, 'accepted')
    expect(attempts).toBe(2)
    const copies = answerMails(id, mailId)
    expect(copies).toHaveLength(2)
    expect(copies[1]?.mime).toBe(copies[0]?.mime)
  })

  it('lost twice in that window stays unknown instead of going out for ever', async () => {
    server.behaviours.push('drop-after-data', 'drop-after-data')
    const id = await accept(address)
    const { id: mailId } = await eventually(async () => {
      const mail = (await statusOf(stand, id)).mails.find((one) => one.kind === 'answer')
      return mail?.attempts === 2 && mail.state === 'unknown' && mail
    })
    await ended(stand, await accept(address, 'Afterwards'))
    expect(answerMails(id, mailId)).toHaveLength(2)
  })
})
