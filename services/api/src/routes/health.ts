// GET /healthz: the process answers. GET /readyz: it can also do its work, that is reach store and queue, has a
// catalogue, and was not told to stop.
import { z } from 'zod'
import { within } from '../deadline.js'
import type { ApiApp, ApiDeps } from '../deps.js'

const checks = z.object({
  ready: z.boolean(),
  checks: z.record(z.string(), z.string()).describe('`ok`, or what is wrong, for each check'),
})

export function health(app: ApiApp, deps: ApiDeps): void {
  const config = { rateLimit: false as const }
  app.get(
    '/healthz',
    { config, schema: { tags: ['health'], summary: 'Alive', response: { 200: z.object({ alive: z.literal(true) }) } } },
    async () => ({ alive: true as const }),
  )
  app.get(
    '/readyz',
    { config, schema: { tags: ['health'], summary: 'Ready for requests', response: { 200: checks, 503: checks } } },
    async (_request, reply) => {
      const found = await readiness(deps)
      const ready = Object.values(found).every((state) => state === 'ok')
      reply.header('cache-control', 'no-store')
      if (!ready) reply.header('retry-after', '5')
      return reply.code(ready ? 200 : 503).send({ ready, checks: found })
    },
  )
}

async function readiness(deps: ApiDeps): Promise<Record<string, string>> {
  const { records, jobs, settings } = deps
  const probe = async (what: string, look: () => Promise<unknown>): Promise<string> => {
    try {
      await within(settings.probeTimeoutMs, look())
      return 'ok'
    } catch (error) {
      deps.log.warn({ err: error, check: what }, 'not ready')
      return 'cannot be reached'
    }
  }
  const [store, queue] = await Promise.all([probe('store', () => records.ping()), probe('queue', () => jobs.load())])
  return { process: deps.draining?.() === true ? 'stopping' : 'ok', store, queue }
}
