// POST /v1/bench-fits: a fan fitted from standing measurements, answered at once and stored nowhere.
import { benchReportSchema } from '@ductwright/contract/bench-report'
import { benchSchema, parseBench } from '@ductwright/contract/bench-request'
import { fitBench } from '@ductwright/pipeline/fit-bench'
import type { CurrentCatalogue } from '../current-catalogue.js'
import type { ApiApp } from '../deps.js'
import { sendJson } from '../json-reply.js'
import { described, refusalsAtOnce } from '../responses.js'

export function benchFit(app: ApiApp, catalogue: CurrentCatalogue): void {
  app.post(
    '/v1/bench-fits',
    {
      schema: {
        tags: ['setups'],
        summary: 'Fit a fan from standing measurements',
        body: benchSchema,
        response: {
          200: described(benchReportSchema, 'The fitted row with its uncertainties, or why the readings give none'),
          ...refusalsAtOnce,
        },
      },
      validatorCompiler: () => (value) => ({ value }),
    },
    async (request, reply) => {
      const measured = parseBench(request.body)
      return sendJson(reply, fitBench(measured, await catalogue()))
    },
  )
}
