// What the API says about itself: an OpenAPI document that is valid and complete, a page that shows it without the network,
// the problems and their cures, and the policies every page carries.
import { readFileSync } from 'node:fs'
import { problemKinds, problemsMarkdown } from '@ductwright/api/problems'
import { validate } from '@scalar/openapi-parser'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openStand, type Stand } from './stand.js'

let stand: Stand

beforeAll(async () => {
  stand = await openStand()
})

afterAll(() => stand.close())

describe('what the API says about itself', () => {
  it('is a valid OpenAPI 3.1 document that describes every route', async () => {
    const document = (await stand.app.inject('/openapi.json')).json<{
      openapi: string
      paths: Record<string, Record<string, { summary?: string; responses?: Record<string, unknown> }>>
    }>()
    expect(document.openapi).toBe('3.1.0')
    const judged = await validate(document)
    expect(judged.errors ?? []).toEqual([])
    expect(judged.valid).toBe(true)
    for (const [path, operations] of Object.entries(document.paths)) {
      for (const [method, operation] of Object.entries(operations)) {
        expect(`${method} ${path}: ${operation.summary ?? ''}`).not.toMatch(/: $/)
        expect(Object.keys(operation.responses ?? {}).length).toBeGreaterThan(0)
      }
    }
    const described = Object.keys(document.paths).sort()
    expect(described).toEqual(
      [
        '/',
        '/confirm',
        '/forget',
        '/unsubscribe',
        '/v1/batches',
        '/v1/batches/{id}',
        '/v1/requests/{id}/mails',
        '/v1/standing-requests',
        '/v1/standing-requests/{id}',
        '/v1/standing-requests/{id}/mails',
        '/healthz',
        '/openapi.json',
        '/problems',
        '/readyz',
        '/v1/bench-fits',
        '/v1/catalogue',
        '/v1/catalogue/airframes',
        '/v1/catalogue/escs',
        '/v1/catalogue/fans',
        '/v1/catalogue/motors',
        '/v1/catalogue/packs',
        '/v1/catalogue/sets',
        '/v1/catalogues',
        '/v1/catalogues/current',
        '/v1/catalogues/{a}/diff/{b}',
        '/v1/catalogues/{version}',
        '/v1/evaluate',
        '/v1/own-parts',
        '/v1/own-parts/{id}',
        '/v1/requests',
        '/v1/requests/{id}',
        '/v1/requests/{id}/events',
        '/v1/requests/{id}/receipt',
        '/v1/requests/{id}/report',
        '/v1/requests/{id}/result',
        '/v1/requests/{id}/result.csv',
        '/v1/requests/{id}/result.txt',
      ].sort(),
    )
  })

  it('describes the body of a request', async () => {
    const document = (await stand.app.inject('/openapi.json')).json<{
      paths: Record<string, Record<string, unknown>>
      components: { schemas: Record<string, unknown> }
    }>()
    const operation = document.paths['/v1/requests']?.['post']
    expect(operation).toMatchObject({
      requestBody: { content: { 'application/json': { schema: { $ref: '#/components/schemas/SweepRequest' } } } },
      parameters: [{ in: 'header', name: 'idempotency-key', required: false }],
    })
    const schema = JSON.stringify(document.components.schemas['SweepRequest'])
    for (const field of ['speed_km_h', 'nozzle_ratios', 'flight_time_min']) expect(schema).toContain(`"${field}"`)
  })

  it('is shown on a page that loads nothing from elsewhere', async () => {
    const page = await stand.app.inject({ url: '/docs/', headers: { accept: 'text/html' } })
    expect(page.statusCode).toBe(200)
    expect(page.headers['content-security-policy']).toContain("script-src 'self' 'unsafe-inline'")
    const loaded = [...page.body.matchAll(/(?:src|href)="([^"]+)"/g)].map((match) => match[1] ?? '')
    expect(loaded.length).toBeGreaterThan(0)
    expect(loaded.filter((url) => /^(https?:)?\/\//.test(url))).toEqual([])
    for (const url of loaded.filter((one) => one.endsWith('.js'))) {
      expect((await stand.app.inject(new URL(url, 'http://x/docs/').pathname)).statusCode).toBe(200)
    }
  })

  it('says of every problem what the documentation says', () => {
    const documented = readFileSync(new URL('../../docs/problems.md', import.meta.url), 'utf8')
    expect(documented.trim()).toBe(problemsMarkdown().trim())
  })

  it('has a heading for every problem', async () => {
    const page = await stand.app.inject('/problems')
    for (const key of Object.keys(problemKinds)) expect(page.body).toContain(`<section id="${key}">`)
  })
})

describe('every page and reply', () => {
  it('carries a strict policy: no script, no frame, no sniffing', async () => {
    for (const url of [
      '/',
      '/v1/catalogue',
      '/problems',
      '/confirm?token=abcdefghijklmnopqrstuvwxyz',
      '/v1/requests/none',
    ]) {
      const { headers } = await stand.app.inject(url)
      expect(headers['content-security-policy']).toMatch(
        /^default-src 'none';style-src 'sha256-[^']+';form-action 'self'/,
      )
      expect(headers['content-security-policy']).not.toContain('unsafe')
      expect(headers['x-content-type-options']).toBe('nosniff')
    }
  })
})
