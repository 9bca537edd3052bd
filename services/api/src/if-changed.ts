// Entity tags: names what is about to be sent, and tells whether the client already holds it.
import type { FastifyReply, FastifyRequest } from 'fastify'

/** Sets the tag; false when the client's If-None-Match already names it. */
export function ifChanged(request: FastifyRequest, reply: FastifyReply, tag: string): boolean {
  const etag = `"${tag}"`
  reply.header('etag', etag).header('cache-control', 'no-cache')
  const held = request.headers['if-none-match']
  if (held === undefined) return true
  const tags = held.split(',').map((part) => part.trim().replace(/^W\//, ''))
  return !(tags.includes(etag) || tags.includes('*'))
}
