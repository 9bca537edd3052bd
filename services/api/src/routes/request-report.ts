// GET /v1/requests/{id}/report: the answer as one page. It may run its own script and no other, so it is sent under a
// policy of its own. Drawing the charts takes about a second of computing, so the last few pages are kept.
import { readReceipt } from '@ductwright/contract/read-receipt'
import { reportPolicy } from '@ductwright/report/page/page-policy'
import { renderReportPage } from '@ductwright/report/page/report-page'
import type { ApiApp, ApiDeps } from '../deps.js'
import { type Answer, drawable } from '../drawable.js'
import { ifChanged } from '../if-changed.js'
import { idParams } from '../known-request.js'
import { htmlType } from '../page.js'
import { stored, unchanged } from '../responses.js'
import { answerOf, answerRefusals } from './request-answer.js'

const summary = 'The answer as a page that works offline: the letter, charts, the whole list, bench cards'
/** Pages kept; one is some hundred kilobytes. */
const KEPT = 8

export function requestReport(app: ApiApp, deps: ApiDeps): void {
  const page = keptPages()
  app.get(
    '/v1/requests/:id/report',
    {
      schema: {
        tags: ['answers'],
        summary,
        params: idParams,
        response: {
          200: stored('text/html', summary),
          304: unchanged,
          ...answerRefusals,
        },
      },
    },
    async (request, reply) => {
      const answer = await answerOf(deps, request.params.id)
      const policy = await reportPolicy()
      reply.header('content-security-policy', policy)
      // The script's hash belongs to the tag: a held page would not run under the policy of another.
      if (!ifChanged(request, reply, `${answer.answerHash}-report-${shortHash(policy)}`)) return reply.code(304).send()
      return reply.type(htmlType).send(Buffer.from(await page(answer), 'utf8'))
    },
  )
}

/** The hash of the script as the policy names it, cut to what an entity tag needs. */
function shortHash(policy: string): string {
  return /script-src 'sha256-([^']{16})/.exec(policy)?.[1] ?? ''
}

/** Draws a page once and keeps the last few; a page that fails is not kept. */
function keptPages(): (answer: Answer) => Promise<string> {
  const pages = new Map<string, Promise<string>>()
  return (answer) => {
    // Answers alike in every byte may have been found in different ways, and the page says how.
    const key = `${answer.result}\n${answer.receipt}`
    const page = pages.get(key) ?? renderReportPage(drawable(answer), readReceipt(answer.receipt))
    pages.delete(key)
    pages.set(key, page)
    page.catch(() => pages.delete(key))
    const [oldest] = pages.keys()
    if (pages.size > KEPT && oldest !== undefined) pages.delete(oldest)
    return page
  }
}
