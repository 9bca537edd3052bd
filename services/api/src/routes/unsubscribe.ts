// GET /unsubscribe shows a page and changes nothing, because scanners follow links in mail; POST /unsubscribe ends the mails,
// at one press of a button in the mail program (RFC 8058: the token stands in the address, whatever the body) or on the page.
// POST /forget also removes everything that is kept under the address the mail went to.
import { sha256Hex } from '@ductwright/contract/canonical-json'
import type { Subscription } from '@ductwright/records/mail-records'
import type { FastifyReply } from 'fastify'
import { z } from 'zod'
import type { ApiApp, ApiDeps } from '../deps.js'
import { htmlType, inert, page } from '../page.js'
import { refusals, stored } from '../responses.js'

const TOKEN = /^[A-Za-z0-9_-]{20,128}$/

const withToken = z.object({
  token: z.string().max(256).optional(),
  scope: z.enum(['this', 'all']).default('this').describe('all: no mail to the address at all'),
})

export function unsubscribe(app: ApiApp, deps: ApiDeps): void {
  readAnyForm(app)
  const { records } = deps
  const known = async (token: string | undefined): Promise<Subscription | null> =>
    TOKEN.test(token ?? '') ? records.subscription(sha256Hex(token ?? '')) : null
  app.get(
    '/unsubscribe',
    {
      schema: {
        tags: ['mail'],
        summary: 'Page that asks which mails to end; changes nothing',
        querystring: withToken,
        response: { 200: stored('text/html', 'A page with buttons'), 404: stored('text/html', 'Unknown link') },
      },
    },
    async (request, reply) => {
      const { token = '' } = request.query
      const subscription = await known(token)
      return subscription === null ? unknownLink(reply) : html(reply, question(token, subscription))
    },
  )
  app.post(
    '/unsubscribe',
    {
      schema: {
        tags: ['mail'],
        summary: 'End the mails of a standing request, or all mail to the address (RFC 8058)',
        consumes: ['application/x-www-form-urlencoded', 'multipart/form-data'],
        querystring: withToken,
        response: {
          200: stored('text/html', 'Ended'),
          404: stored('text/html', 'Unknown link'),
          ...refusals('store-unavailable'),
        },
      },
    },
    async (request, reply) => {
      const { token, scope } = request.query
      const done = TOKEN.test(token ?? '') && (await records.unsubscribe(sha256Hex(token ?? ''), scope))
      if (!done) return unknownLink(reply)
      request.log.info({ scope }, 'a reader unsubscribed')
      return html(
        reply,
        page('No more mails', `<p>${scope === 'all' ? 'Nothing' : 'Nothing more of this'} will be sent.</p>`),
      )
    },
  )
  app.post(
    '/forget',
    {
      schema: {
        tags: ['mail'],
        summary: 'Remove everything kept under the address the mail went to, and write to it no more',
        consumes: ['application/x-www-form-urlencoded'],
        querystring: withToken,
        response: {
          200: stored('text/html', 'Removed'),
          404: stored('text/html', 'Unknown link'),
          ...refusals('store-unavailable'),
        },
      },
    },
    async (request, reply) => {
      const { token } = request.query
      const done = TOKEN.test(token ?? '') && (await records.eraseAddress(sha256Hex(token ?? '')))
      if (!done) return unknownLink(reply)
      request.log.info('an address was forgotten')
      return html(reply, page('Forgotten', '<p>Your address and everything kept under it are gone.</p>'))
    },
  )
}

/** Mail programs send a form of either kind; what it says is fixed, so it is not read. */
function readAnyForm(app: ApiApp): void {
  for (const kind of ['application/x-www-form-urlencoded', 'multipart/form-data']) {
    app.addContentTypeParser(kind, { parseAs: 'string', bodyLimit: 4096 }, (_request, _body, done) => done(null, null))
  }
}

const html = (reply: FastifyReply, body: string): FastifyReply =>
  reply.header('cache-control', 'no-store').type(htmlType).send(body)

const unknownLink = (reply: FastifyReply): FastifyReply =>
  html(
    reply.code(404),
    page(
      'This link is not known',
      '<p>It may be incomplete, or what it was about is gone. Open the link from the mail once more.</p>',
    ),
  )

function question(token: string, { title, standingId }: Subscription): string {
  const button = (action: string, words: string) =>
    `<form method="post" action="${action}"><button type="submit">${words}</button></form>`
  const at = `token=${inert(token)}`
  const one = standingId === null ? '' : button(`/unsubscribe?${at}`, 'End the mails about this request')
  return page(
    'No more mails?',
    `<p>${inert(title)}</p>
${one}
${button(`/unsubscribe?${at}&amp;scope=all`, 'Send nothing to this address any more')}
${button(`/forget?${at}`, 'Also remove my address and everything kept under it')}
<p>Close this page to leave everything as it is.</p>`,
  )
}
