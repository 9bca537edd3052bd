// The thread that reads catalogues: one call at a time, a bounded number waiting, and one that breaks it spoils no other.
import { CatalogueJudge } from '@ductwright/api/catalogue-judge'
import { Problem } from '@ductwright/api/problems'
import { catalogueContent } from '@ductwright/catalogue/catalogue-content'
import { CatalogueError } from '@ductwright/catalogue/catalogue-fault'
import { generateFiles } from '@ductwright/catalogue/generate/generate-catalogue'
import { readCatalogue } from '@ductwright/catalogue/read-catalogue'
import { afterEach, beforeEach, expect, it } from 'vitest'

const files = generateFiles({ seed: 4, fans: 5, motors: 6, escs: 4, packs: 5, airframes: 2 })
const catalogue = readCatalogue(files)
const day = '2026-03-14'
const whole = { sent: { kind: 'whole', body: { files } }, before: null, day } as const

let judge: CatalogueJudge

beforeEach(() => {
  judge = new CatalogueJudge()
})

afterEach(() => judge.close())

it('gives the version as text, and the faults as they are', async () => {
  const { next, reply } = await judge.judge(whole)
  expect(next).toEqual({ version: catalogue.version, name: catalogue.name, content: catalogueContent(catalogue) })
  expect(reply).toMatchObject({ version: catalogue.version, replaced: null, changes: [] })
  const faulty = { ...whole, sent: { kind: 'whole', body: { files: { 'fans.csv': '' } } } } as const
  const error: unknown = await judge.judge(faulty).catch((reason: unknown) => reason)
  expect(error).toBeInstanceOf(CatalogueError)
  expect((error as CatalogueError).faults).toContainEqual(
    expect.objectContaining({ file: 'fans.csv', rule: 'empty-table' }),
  )
})

it('survives a call that breaks the thread, also with others behind it', async () => {
  const breaking = { ...whole, sent: { kind: 'patch', body: {} } } as const
  const outcomes = await Promise.allSettled([judge.judge(whole), judge.judge(breaking), judge.judge(whole)])
  expect(outcomes.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled'])
  expect((await judge.judge(whole)).next.version).toBe(catalogue.version)
})

it('lets a bounded number wait, and takes more when they are done', async () => {
  const outcomes = await Promise.allSettled(Array.from({ length: 12 }, () => judge.judge(whole)))
  const refused = outcomes.filter((outcome) => outcome.status === 'rejected')
  expect(refused).toHaveLength(4)
  for (const { reason } of refused) {
    expect(reason).toBeInstanceOf(Problem)
    expect(reason).toMatchObject({ key: 'too-many-requests', retryAfterSeconds: 5 })
  }
  expect((await judge.judge(whole)).next.version).toBe(catalogue.version)
})
