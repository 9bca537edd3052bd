// GET /v1/requests/{id}/mails: what was written about a request, and what became of it.
import { z } from 'zod'
import type { ApiApp, ApiDeps } from '../deps.js'
import { idParams, knownRequest } from '../known-request.js'
import { mailView, shownMail } from '../mail-view.js'
import { refusals } from '../responses.js'

export function requestMails(app: ApiApp, deps: ApiDeps): void {
  app.get(
    '/v1/requests/:id/mails',
    {
      schema: {
        tags: ['mail'],
        summary: 'The outbox of a request',
        params: idParams,
        response: {
          200: z.object({ mails: z.array(mailView) }),
          ...refusals('not-found', 'too-many-requests', 'store-unavailable'),
        },
      },
    },
    async (request) => {
      const { id } = await knownRequest(deps.records, request.params.id)
      return { mails: (await deps.records.mailsOf(id)).map(shownMail) }
    },
  )
}
