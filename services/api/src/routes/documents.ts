// What the API says about itself: the OpenAPI document made from the schemas of the routes, a page that shows it without
// the network, and the problems page that problem types point to.
import apiReference from '@scalar/fastify-api-reference'
import { z } from 'zod'
import type { ApiApp } from '../deps.js'
import { sendJson } from '../json-reply.js'
import { htmlType, inert, page } from '../page.js'
import { problemKinds } from '../problems.js'
import { described, stored } from '../responses.js'

/** The viewer carries its own script and styles inline; this is relaxed here and nowhere else. */
const VIEWER_POLICY =
  "default-src 'none'; script-src 'self' 'unsafe-inline'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self' data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

/** Nothing is fetched from outside: no fonts, no telemetry, no assistants. */
const viewer = {
  url: '/openapi.json',
  pageTitle: 'Ductwright API',
  withDefaultFonts: false,
  telemetry: false,
  agent: { disabled: true },
  mcp: { disabled: true },
  showDeveloperTools: 'never' as const,
  hideClientButton: true,
}

export function documents(app: ApiApp): void {
  app.get(
    '/',
    { schema: { tags: ['about'], summary: 'Where to go from here', response: { 200: stored('text/html', 'Links') } } },
    async (_request, reply) => reply.type(htmlType).send(frontPage()),
  )
  app.get(
    '/openapi.json',
    {
      schema: {
        tags: ['about'],
        summary: 'This API as an OpenAPI 3.1 document',
        response: { 200: described(z.looseObject({}), 'OpenAPI 3.1') },
      },
    },
    async (_request, reply) => sendJson(reply, app.swagger()),
  )
  app.get(
    '/problems',
    {
      schema: {
        tags: ['about'],
        summary: 'Every problem type with its cure',
        response: { 200: stored('text/html', 'One heading a problem') },
      },
    },
    async (_request, reply) => reply.type(htmlType).send(problemsPage()),
  )
  app.register(async (scope) => {
    scope.addHook('onSend', async (_request, reply) => {
      reply.header('content-security-policy', VIEWER_POLICY)
    })
    await scope.register(apiReference, {
      routePrefix: '/docs',
      logLevel: 'silent',
      configuration: viewer,
    })
  })
}

const frontPage = (): string =>
  page(
    'Ductwright',
    `<p>Answers one question for electric ducted-fan model jets: what do I need for X km/h? Post a request to <code>/v1/requests</code>; the ranked answer comes back by mail.</p>
<ul><li><a href="/docs">The API, with examples</a></li><li><a href="/openapi.json">The API as an OpenAPI document</a></li><li><a href="/problems">Every refusal and its cure</a></li></ul>`,
  )

function problemsPage(): string {
  const sections = Object.entries(problemKinds).map(
    ([key, kind]) =>
      `<section id="${key}"><h2>${key}</h2><p><strong>${kind.status} ${inert(kind.title)}.</strong> ${inert(kind.meaning)}</p><p>${inert(kind.cure)}</p></section>`,
  )
  return page('Problems', sections.join('\n'))
}
