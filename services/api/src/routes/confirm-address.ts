// GET /confirm shows a page with a form and changes nothing, because scanners follow links in mail; POST /confirm
// confirms the address. Only the hash of the token is stored, so the records alone cannot confirm anything.
import { sha256Hex } from '@ductwright/contract/canonical-json'
import { z } from 'zod'
import type { ApiApp, ApiDeps } from '../deps.js'
import { htmlType, inert, page } from '../page.js'
import { refusals, stored } from '../responses.js'

const TOKEN = /^[A-Za-z0-9_-]{20,128}$/

export function confirmAddress(app: ApiApp, deps: ApiDeps): void {
  app.addContentTypeParser(
    'application/x-www-form-urlencoded',
    { parseAs: 'string', bodyLimit: 4096 },
    (_request, body, done) => done(null, Object.fromEntries(new URLSearchParams(String(body)))),
  )
  app.get(
    '/confirm',
    {
      schema: {
        tags: ['mail'],
        summary: 'Page that asks whether to confirm a mail address; changes nothing',
        querystring: z.object({ token: z.string().optional() }),
        response: { 200: stored('text/html', 'A page with one button'), 404: stored('text/html', 'Unknown link') },
      },
    },
    async (request, reply) => {
      const { token } = request.query
      reply.header('cache-control', 'no-store').type(htmlType)
      return TOKEN.test(token ?? '') ? reply.send(question(token ?? '')) : reply.code(404).send(unknownLink())
    },
  )
  app.post(
    '/confirm',
    {
      schema: {
        tags: ['mail'],
        summary: 'Confirm a mail address and release the mails that wait for it',
        consumes: ['application/x-www-form-urlencoded'],
        body: z.object({ token: z.string() }),
        response: {
          200: stored('text/html', 'Confirmed'),
          404: stored('text/html', 'Unknown link'),
          ...refusals('store-unavailable'),
        },
      },
    },
    async (request, reply) => {
      const { token } = request.body
      const address = TOKEN.test(token) ? await deps.records.confirmAddress(sha256Hex(token)) : null
      reply.header('cache-control', 'no-store').type(htmlType)
      if (address === null) return reply.code(404).send(unknownLink())
      request.log.info('an address was confirmed')
      return reply.send(page('Address confirmed', '<p>The answers waiting for this address are on their way.</p>'))
    },
  )
}

const question = (token: string): string =>
  page(
    'Confirm this address?',
    `<p>Someone asked Ductwright to mail an answer to you. Nothing is sent unless you confirm.</p>
<form method="post" action="/confirm"><input type="hidden" name="token" value="${inert(token)}"><button type="submit">Yes, mail me the answer</button></form>
<p>If it was not you, close this page.</p>`,
  )

const unknownLink = (): string =>
  page('This link is not known', '<p>It may be incomplete, or was used up. Open the link from the mail once more.</p>')
