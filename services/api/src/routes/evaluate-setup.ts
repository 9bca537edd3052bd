// POST /v1/evaluate: one setup worked through every model, answered at once and stored nowhere.
import { parseSetup } from '@ductwright/contract/parse-setup'
import { evaluateSetup as evaluate } from '@ductwright/pipeline/evaluate-setup'
import type { CurrentCatalogue } from '../current-catalogue.js'
import type { ApiApp } from '../deps.js'
import { sendJson } from '../json-reply.js'
import { setupReport, setupRequest } from '../openapi.js'
import { described, refusalsAtOnce } from '../responses.js'

export function evaluateSetup(app: ApiApp, catalogue: CurrentCatalogue): void {
  app.post(
    '/v1/evaluate',
    {
      schema: {
        tags: ['setups'],
        summary: 'Work one setup through',
        body: setupRequest,
        response: {
          200: described(setupReport, 'Every figure of the setup, its limits and margins, or why it is refused'),
          ...refusalsAtOnce,
        },
      },
      validatorCompiler: () => (value) => ({ value }),
    },
    async (request, reply) => {
      const setup = parseSetup(request.body)
      const report = evaluate(setup, await catalogue())
      return sendJson(reply, report)
    },
  )
}
