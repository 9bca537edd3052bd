// A stand for standing requests: posts one, changes the catalogue under it, and waits until everything has settled.
import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { catalogueContent, sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import type { Result } from '@ductwright/contract/result'
import { type ParsedMail, simpleParser } from 'mailparser'
import { expect } from 'vitest'
import { smallRequest } from './small-catalogue.js'
import { eventually, post, type Stand } from './stand.js'

export interface StandingStatus {
  readonly id: string
  readonly state: string
  readonly unsubscribed: boolean
  readonly revision: number
  readonly running: string | null
  readonly settling: boolean
  readonly answered: { readonly catalogue: string; readonly model: string; readonly revision: number } | null
  readonly last_cause: string | null
  readonly told: string | null
  readonly runs: readonly {
    readonly request: string
    readonly reason: string
    readonly state: string
    readonly catalogue: string
    readonly answer_hash: string | null
    readonly cause: string | null
  }[]
}

export interface ShownMail {
  readonly id: string
  readonly kind: string
  readonly state: string
  readonly message_id: string
}

export type Loose = Omit<Catalogue, 'version'>

export async function put(
  stand: Stand,
  change: (catalogue: Loose) => Loose,
  from = stand.catalogue,
): Promise<Catalogue> {
  const { version: _version, ...loose } = from
  const catalogue = sealCatalogue(change(loose))
  await stand.records.putCatalogue(catalogue.version, catalogue.name, catalogueContent(catalogue))
  return catalogue
}

export const same = (catalogue: Loose): Loose => catalogue

export async function postStanding(
  stand: Stand,
  changes: Record<string, unknown> = {},
  headers: Record<string, string> = {},
) {
  const request = smallRequest(stand.catalogue, { title: 'Tell me', ...changes })
  return post(stand, { request }, headers, '/v1/standing-requests')
}

export async function stands(stand: Stand, changes: Record<string, unknown> = {}): Promise<string> {
  const reply = await postStanding(stand, changes)
  expect(reply.statusCode).toBe(201)
  return reply.json<{ id: string }>().id
}

export const standingOf = async (stand: Stand, id: string): Promise<StandingStatus> =>
  (await stand.app.inject(`/v1/standing-requests/${id}`)).json<StandingStatus>()

export const mailsOf = async (stand: Stand, id: string): Promise<readonly ShownMail[]> =>
  (await stand.app.inject(`/v1/standing-requests/${id}/mails`)).json<{ mails: ShownMail[] }>().mails

/** Waits until it is answered for this catalogue version, nothing runs, and every mail has left. */
export const settledOn = (stand: Stand, id: string, version: string): Promise<StandingStatus> =>
  eventually(async () => {
    const status = await standingOf(stand, id)
    const open = (await mailsOf(stand, id)).some((mail) => ['pending', 'sending'].includes(mail.state))
    return status.running === null && !status.settling && status.answered?.catalogue === version && !open && status
  })

/** A mail of the folder, by its id. */
export const readMail = async (stand: Stand, mailId: string): Promise<ParsedMail> =>
  simpleParser(await readFile(join(stand.mailFolder, `${mailId}.eml`)))

export const mailFiles = (stand: Stand): Promise<string[]> => readdir(stand.mailFolder).catch(() => [])

export async function resultOf(stand: Stand, requestId: string): Promise<Result> {
  return (await stand.app.inject(`/v1/requests/${requestId}/result`)).json<Result>()
}

/** Address of the unsubscribe header, below the public address. */
export function unsubscribePath(mail: ParsedMail): string {
  const list = mail.headers.get('list') as { unsubscribe?: { url?: string } } | undefined
  const url = new URL(list?.unsubscribe?.url ?? 'http://nowhere.example')
  return `${url.pathname}${url.search}`
}
