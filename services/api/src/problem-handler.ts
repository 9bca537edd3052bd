// The one place where an error becomes a reply: RFC 9457 problem documents with a type that resolves to a heading of the
// problems page. Whatever is not known here is ours: it is logged and answered without its inner words.
import { CatalogueError } from '@ductwright/catalogue/catalogue-fault'
import { type Fault, InputError, shown } from '@ductwright/contract/fault'
import { isUnavailable } from '@ductwright/records/unavailable'
import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify'
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod'
import { catalogueProblem } from './catalogue-problem.js'
import type { ApiApp } from './deps.js'
import { BrokenJson } from './json-text.js'
import { Problem, problemKinds } from './problems.js'

export function registerProblemHandler(app: ApiApp, limits: { readonly bodyLimitBytes: number }): void {
  app.setErrorHandler((error: FastifyError, request, reply) => {
    // A route that takes more than others says so itself.
    const problem = asProblem(error, { bodyLimitBytes: request.routeOptions.bodyLimit ?? limits.bodyLimitBytes })
    if (problem.key === 'internal-error') request.log.error({ err: error }, 'request failed')
    else request.log.info({ problem: problem.key, faults: problem.faults.map(shownFault) }, 'request refused')
    return sendProblem(problem, request, reply)
  })
  app.setNotFoundHandler((request, reply) =>
    sendProblem(new Problem('not-found', `No route ${request.method} ${shown(pathOf(request))}.`), request, reply),
  )
}

/** Field and rule only: the value may be an address. */
const shownFault = (fault: Fault): string => `${fault.pointer} ${fault.rule}`

/** The path without its query, which may hold a token. */
export const pathOf = (request: Pick<FastifyRequest, 'url'>): string => request.url.split('?', 1)[0] ?? ''

function sendProblem(problem: Problem, request: FastifyRequest, reply: FastifyReply): FastifyReply {
  const kind = problemKinds[problem.key]
  if (problem.retryAfterSeconds !== null) reply.header('retry-after', String(problem.retryAfterSeconds))
  const body = {
    type: `/problems#${problem.key}`,
    title: kind.title,
    status: kind.status,
    detail: problem.message,
    instance: pathOf(request),
    request_id: request.id,
    ...(problem.faults.length > 0 ? { faults: problem.faults } : {}),
  }
  return reply
    .code(kind.status)
    .header('content-type', 'application/problem+json; charset=utf-8')
    .send(JSON.stringify(body))
}

function asProblem(error: FastifyError, limits: { readonly bodyLimitBytes: number }): Problem {
  if (error instanceof Problem) return error
  if (error instanceof InputError) return new Problem('invalid-request', error.message, { faults: error.faults })
  if (error instanceof CatalogueError) return catalogueProblem(error)
  if (error instanceof BrokenJson) return new Problem('broken-json', sentence(error.message))
  if (hasZodFastifySchemaValidationErrors(error)) return queryProblem(error)
  if (error.code === 'FST_ERR_CTP_BODY_TOO_LARGE') {
    return new Problem('body-too-large', `The body is larger than ${limits.bodyLimitBytes} bytes, the most accepted.`)
  }
  if (error.code === 'FST_ERR_CTP_INVALID_MEDIA_TYPE') return new Problem('wrong-content-type', sentence(error.message))
  if (isUnavailable(error)) {
    return new Problem('store-unavailable', 'The store does not answer at the moment.', { retryAfterSeconds: 5 })
  }
  if (error.statusCode !== undefined && error.statusCode >= 400 && error.statusCode < 500) {
    return new Problem('invalid-query', sentence(error.message))
  }
  return new Problem('internal-error', 'The service failed on this call; the fault is recorded under the request id.')
}

function queryProblem(error: FastifyError): Problem {
  const faults = (error.validation ?? []).map((issue): Fault => {
    const pointer = issue.instancePath.replace(/^\/?/, '/')
    return { pointer, rule: issue.keyword, value: '', message: sentence(issue.message ?? 'is not allowed') }
  })
  const detail = faults.map((fault) => `${fault.pointer.slice(1)}: ${fault.message}`).join(' ')
  return new Problem('invalid-query', detail, { faults })
}

const sentence = (text: string): string => {
  const line = text.charAt(0).toUpperCase() + text.slice(1)
  return /[.!?]$/.test(line) ? line : `${line}.`
}
