// Builds the API from what it depends on: guards first (headers, rate limit, body reading), then one problem handler,
// then the routes. It opens nothing and listens nowhere, so tests inject requests without a port.

import { randomUUID } from 'node:crypto'
import helmet from '@fastify/helmet'
import rateLimit from '@fastify/rate-limit'
import swagger from '@fastify/swagger'
import fastify, { type FastifyBaseLogger, type FastifyRequest } from 'fastify'
import { serializerCompiler, validatorCompiler, type ZodTypeProvider } from 'fastify-type-provider-zod'
import { CatalogueJudge } from './catalogue-judge.js'
import { currentCatalogue } from './current-catalogue.js'
import type { ApiApp, ApiDeps } from './deps.js'
import { parseJsonText } from './json-text.js'
import { openApiOptions } from './openapi.js'
import { styleHash } from './page.js'
import { pathOf, registerProblemHandler } from './problem-handler.js'
import { Problem } from './problems.js'
import { acceptRequest } from './routes/accept-request.js'
import { batchAccept } from './routes/batch-accept.js'
import { batchRead } from './routes/batch-read.js'
import { benchFit } from './routes/bench-fit.js'
import { cancelRequest } from './routes/cancel-request.js'
import { catalogueLists } from './routes/catalogue.js'
import { catalogueDiff } from './routes/catalogue-diff.js'
import { ownParts } from './routes/catalogue-own-parts.js'
import { changeCatalogue } from './routes/catalogue-patch.js'
import { uploadCatalogue } from './routes/catalogue-upload.js'
import { catalogueVersions } from './routes/catalogue-versions.js'
import { confirmAddress } from './routes/confirm-address.js'
import { documents } from './routes/documents.js'
import { evaluateSetup } from './routes/evaluate-setup.js'
import { health } from './routes/health.js'
import { requestAnswer } from './routes/request-answer.js'
import { requestEvents } from './routes/request-events.js'
import { requestMails } from './routes/request-mails.js'
import { requestReport } from './routes/request-report.js'
import { requestStatus } from './routes/request-status.js'
import { standingAccept } from './routes/standing-accept.js'
import { standingChange } from './routes/standing-change.js'
import { standingRead } from './routes/standing-read.js'
import { unsubscribe } from './routes/unsubscribe.js'

export function buildApi(deps: ApiDeps): ApiApp {
  const { settings } = deps
  const loggerInstance: FastifyBaseLogger = deps.log.child({}, { serializers: { req: shownRequest } })
  const app: ApiApp = fastify({
    loggerInstance,
    bodyLimit: settings.bodyLimitBytes,
    trustProxy: settings.trustProxy,
    genReqId: () => randomUUID(),
    forceCloseConnections: 'idle',
    requestTimeout: 30_000,
  }).withTypeProvider<ZodTypeProvider>()
  app.setValidatorCompiler(validatorCompiler)
  app.setSerializerCompiler(serializerCompiler)
  registerProblemHandler(app, settings)
  readBodies(app)
  guard(app, deps)
  app.register(swagger, openApiOptions)
  app.addHook('onRequest', async (request, reply) => {
    reply.header('x-request-id', request.id)
  })
  app.register(async (scope) => registerRoutes(scope.withTypeProvider<ZodTypeProvider>(), deps))
  return app
}

const shownRequest = (request: FastifyRequest) => ({ method: request.method, path: pathOf(request) })

/** JSON only; the built-in readers would also take text and say less about what is broken. */
function readBodies(app: ApiApp): void {
  app.removeAllContentTypeParsers()
  app.addContentTypeParser(
    'application/json',
    { parseAs: 'string' },
    async (_request: unknown, body: string | Buffer) => parseJsonText(String(body)),
  )
}

function guard(app: ApiApp, deps: ApiDeps): void {
  app.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'none'"],
        styleSrc: [styleHash],
        formAction: ["'self'"],
        baseUri: ["'none'"],
        frameAncestors: ["'none'"],
      },
    },
    referrerPolicy: { policy: 'no-referrer' },
  })
  app.register(rateLimit, {
    max: deps.settings.requestsPerMinute,
    timeWindow: 60_000,
    errorResponseBuilder: (_request, context) => {
      const seconds = Math.max(1, Math.ceil(context.ttl / 1000))
      const words = `At most ${context.max} calls a minute are answered; try again in ${seconds} s.`
      return new Problem('too-many-requests', words, { retryAfterSeconds: seconds })
    },
  })
}

function registerRoutes(app: ApiApp, deps: ApiDeps): void {
  const catalogue = currentCatalogue(deps.records)
  const judge = new CatalogueJudge()
  app.addHook('onClose', () => judge.close())
  acceptRequest(app, deps, catalogue)
  requestStatus(app, deps)
  cancelRequest(app, deps)
  requestAnswer(app, deps)
  requestReport(app, deps)
  requestEvents(app, deps)
  catalogueLists(app, catalogue)
  catalogueVersions(app, deps)
  catalogueDiff(app, deps)
  changeCatalogue(app, deps, judge)
  ownParts(app, deps, catalogue)
  app.register(async (scope) => uploadCatalogue(scope.withTypeProvider<ZodTypeProvider>(), deps, judge))
  evaluateSetup(app, catalogue)
  benchFit(app, catalogue)
  requestMails(app, deps)
  standingAccept(app, deps, catalogue)
  standingRead(app, deps)
  standingChange(app, deps, catalogue)
  batchAccept(app, deps, catalogue)
  batchRead(app, deps)
  health(app, deps)
  documents(app)
  app.register(async (scope) => unsubscribe(scope.withTypeProvider<ZodTypeProvider>(), deps))
  app.register(async (scope) => confirmAddress(scope.withTypeProvider<ZodTypeProvider>(), deps))
}
