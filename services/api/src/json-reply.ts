// JSON sent as bytes: what is answered was made whole before, and must not fail or change on the way out.
import type { FastifyReply } from 'fastify'

export const sendJson = (reply: FastifyReply, value: object): FastifyReply =>
  reply.header('content-type', 'application/json').send(Buffer.from(JSON.stringify(value), 'utf8'))
