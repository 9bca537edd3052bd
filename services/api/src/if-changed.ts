// Entity tags: names what is about to be sent, tells whether the client already holds it, and whether what the client
// wants to change is still what it has read.
import type { FastifyReply, FastifyRequest } from 'fastify'
import { Problem } from './problems.js'

/** Sets the tag; false when the client's If-None-Match already names it. */
export function ifChanged(request: FastifyRequest, reply: FastifyReply, tag: string): boolean {
  const etag = `"${tag}"`
  reply.header('etag', etag).header('cache-control', 'no-cache')
  const held = request.headers['if-none-match']
  if (held === undefined) return true
  const tags = listed(held).map((part) => part.replace(/^W\//, ''))
  return !(tags.includes(etag) || tags.includes('*'))
}

/**
 * Goes on only when If-Match names the tag of what is in force; a weak tag names nothing here.
 * @throws Problem without the header where it is required, and when something else is in force
 */
export function ifMatches(request: FastifyRequest, tag: string, presence: 'required' | 'optional' = 'required'): void {
  const expected = request.headers['if-match']
  if (expected === undefined && presence === 'optional') return
  if (expected === undefined) {
    const words = 'Send If-Match with the entity tag of what you want to change; it is in the ETag of what you read.'
    throw new Problem('condition-required', words)
  }
  const tags = listed(expected)
  if (!(tags.includes(`"${tag}"`) || tags.includes('*'))) throw changedMeanwhile(tag)
}

export const changedMeanwhile = (tag: string): Problem =>
  new Problem('changed-meanwhile', `What is in force now has the tag "${tag}".`)

const listed = (header: string): string[] => header.split(',').map((part) => part.trim())
