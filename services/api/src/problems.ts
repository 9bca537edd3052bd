// Every refusal the API can answer with, once: its key is the fragment of the problem's type URI and a heading of the
// problems page. Status, title, what it means and the cure live here; the detail of one case is added where it arises.
import type { Fault } from '@ductwright/contract/fault'

export const problemKinds = {
  'invalid-request': {
    status: 422,
    title: 'The request breaks a rule',
    meaning:
      'The JSON could be read, but one or more fields are unknown, missing, out of range or contradict each other.',
    cure: 'Every fault is in `faults`: a JSON pointer to the field, the rule, the value as sent and one sentence. Correct them all and send again. Nothing was stored.',
  },
  'broken-json': {
    status: 400,
    title: 'The body is not JSON',
    meaning: 'The text could not be read as JSON, or it is nested too deeply.',
    cure: 'The detail names line and column of the first character that cannot stand there.',
  },
  'invalid-query': {
    status: 400,
    title: 'A parameter of the address or a header breaks a rule',
    meaning: 'A query parameter or header has a value that is not allowed.',
    cure: 'Each one is named in `faults` with the rule.',
  },
  'wrong-content-type': {
    status: 415,
    title: 'The content type is not one that is read here',
    meaning: 'Requests are read as `application/json`; the files of a catalogue also as `multipart/form-data`.',
    cure: 'Send the header `Content-Type: application/json`.',
  },
  'body-too-large': {
    status: 413,
    title: 'The body is too large',
    meaning: 'A request is a few kilobytes, a catalogue some megabytes; larger bodies are cut off unread.',
    cure: 'The detail names the limit in bytes.',
  },
  'too-many-combinations': {
    status: 422,
    title: 'The sweep is too large',
    meaning:
      'The number of combinations, or the time or memory they are estimated to take, is above what this service accepts. It is counted before anything is stored.',
    cure: 'Name fewer duties or nozzle ratios under `sweep`, require parts you already own, exclude parts you will not buy, or raise the limit in the configuration.',
  },
  'invalid-catalogue': {
    status: 422,
    title: 'The catalogue breaks a rule',
    meaning:
      'One or more rows of what was sent are wrong, contradict each other, or no longer fit the catalogue they are laid over.',
    cure: 'Every fault is in `faults`: file, line and column, a JSON pointer, the rule, the value and one sentence. Correct them all and send again. Nothing was changed: the catalogue in use stays.',
  },
  'condition-required': {
    status: 428,
    title: 'The call must say what it changes',
    meaning: 'Without the header `If-Match` a change of somebody else could be overwritten unseen.',
    cure: 'Read what you want to change, and send its entity tag back as `If-Match`.',
  },
  'changed-meanwhile': {
    status: 412,
    title: 'It was changed by somebody else',
    meaning: 'The entity tag in `If-Match` is not that of what is in force now. Nothing was changed.',
    cure: 'Read it again, make the change to what is there now, and send that with its tag.',
  },
  'key-reused': {
    status: 422,
    title: 'The idempotency key was used with another body',
    meaning: 'An Idempotency-Key stands for exactly one body. It was seen before with different content.',
    cure: 'Use a new key for a new request; repeat a key only with the same body.',
  },
  'not-found': {
    status: 404,
    title: 'There is nothing at this address',
    meaning: 'The path is unknown, or no request has this id.',
    cure: 'The paths are listed at `/docs`; ids are given by the reply to `POST /v1/requests`.',
  },
  'not-finished': {
    status: 409,
    title: 'There is no answer yet',
    meaning: 'The request is known and still being worked on.',
    cure: 'Follow `/v1/requests/{id}/events`, or ask again after the seconds in `Retry-After`.',
  },
  'no-answer': {
    status: 409,
    title: 'There will be no answer',
    meaning: 'The request ended without one: it failed or was cancelled. The detail gives the cause.',
    cure: 'Post the request again, changed if the cause names a field.',
  },
  'answer-of-earlier-form': {
    status: 409,
    title: 'The answer is of an earlier release',
    meaning:
      'Answers are kept byte for byte as they were written. This one has other fields than answers have now, so that neither table nor text nor page can be drawn from it.',
    cure: 'Read it as it is at `/v1/requests/{id}/result`, or post the request again.',
  },
  'already-ended': {
    status: 409,
    title: 'The request has already ended',
    meaning: 'Only a request that still waits or runs can be cancelled.',
    cure: 'None is needed; the detail names the state it ended in.',
  },
  deleted: {
    status: 410,
    title: 'It was deleted',
    meaning: 'The standing request was deleted at the wish of its owner; nothing of it is kept but its id.',
    cure: 'Post a new one.',
  },
  unsubscribed: {
    status: 409,
    title: 'Its reader unsubscribed',
    meaning: 'Whoever reads the mails of this standing request has ended them, so it cannot be resumed or revised.',
    cure: 'Post a new standing request, if its reader agrees.',
  },
  'too-many-requests': {
    status: 429,
    title: 'Too many requests from one address',
    meaning: 'This client asked more often in a minute than the service allows.',
    cure: 'Wait the seconds in `Retry-After`. Use the event stream instead of asking again and again.',
  },
  'too-many-streams': {
    status: 503,
    title: 'Too many progress streams are open',
    meaning: 'The number of event streams open at once is bounded.',
    cure: 'Ask for `/v1/requests/{id}` instead, or try again after the seconds in `Retry-After`.',
  },
  'store-unavailable': {
    status: 503,
    title: 'The store cannot be reached',
    meaning: 'The database does not answer. Nothing was stored by this call; everything accepted earlier is safe.',
    cure: 'Try again after the seconds in `Retry-After`, with the same Idempotency-Key.',
  },
  'no-catalogue': {
    status: 503,
    title: 'No catalogue is loaded',
    meaning: 'The service has no parts to choose from yet.',
    cure: 'Load a catalogue, then try again after the seconds in `Retry-After`.',
  },
  'internal-error': {
    status: 500,
    title: 'Something went wrong on our side',
    meaning: 'A fault of the service, recorded with the request id in `request_id`.',
    cure: 'Try again; if it stays, report the request id.',
  },
} as const satisfies Readonly<Record<string, ProblemKind>>

interface ProblemKind {
  readonly status: number
  readonly title: string
  readonly meaning: string
  readonly cure: string
}

export type ProblemKey = keyof typeof problemKinds

/** Thrown by a route; the problem handler turns it into the reply. */
export class Problem extends Error {
  readonly key: ProblemKey
  readonly faults: readonly Fault[]
  readonly retryAfterSeconds: number | null

  constructor(key: ProblemKey, detail: string, extra: { faults?: readonly Fault[]; retryAfterSeconds?: number } = {}) {
    super(detail)
    this.name = 'Problem'
    this.key = key
    this.faults = extra.faults ?? []
    this.retryAfterSeconds = extra.retryAfterSeconds ?? null
  }
}

/** The text of docs/problems.md: one heading a kind, in the order above. */
export function problemsMarkdown(): string {
  const sections = Object.entries(problemKinds).map(
    ([key, kind]) => `## ${key}\n\n**${kind.status} ${kind.title}.** ${kind.meaning}\n\n${kind.cure}\n`,
  )
  return `# Problems\n\nEvery refusal is an \`application/problem+json\` document (RFC 9457). Its \`type\` ends in one of the headings below.\n\n${sections.join('\n')}`
}
