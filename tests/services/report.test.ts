// The report page over HTTP: the page of that answer, under a policy that lets its own script run and nothing else, not
// sent twice to a client that holds it; and answers whose form is not drawn any more.
import { sha256Hex } from '@ductwright/contract/canonical-json'
import type { Receipt, Result } from '@ductwright/contract/result'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import { renderReportPage } from '@ductwright/report/page/report-page'
import { renderText } from '@ductwright/report/text'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { describeInBrowser, testBrowser } from '../browser/test-browser.js'
import { openPage } from '../browser/watched-page.js'
import { smallRequest } from './small-catalogue.js'
import { ended, openStand, post, type Stand, statusOf } from './stand.js'

const browser = await testBrowser()
afterAll(() => browser?.close())

let stand: Stand
let id: string

beforeAll(async () => {
  stand = await openStand({ worker: {} })
  const reply = await post(stand, smallRequest(stand.catalogue, { title: 'As a page', address: null }))
  id = reply.json<{ id: string }>().id
  expect(await ended(stand, id)).toMatchObject({ state: 'answered' })
})

afterAll(() => stand.close())

const report = (headers: Record<string, string> = {}) => stand.app.inject({ url: `/v1/requests/${id}/report`, headers })

describe('the report of a request', () => {
  it('is the page of its answer', async () => {
    const result = (await stand.app.inject(`/v1/requests/${id}/result`)).json<Result>()
    const reply = await report()
    expect(reply.statusCode).toBe(200)
    expect(reply.headers['content-type']).toBe('text/html; charset=utf-8')
    const receipt = (await stand.app.inject(`/v1/requests/${id}/receipt`)).json<Receipt>()
    expect(reply.body).toBe(await renderReportPage(result, receipt))
    expect(reply.body).toContain('As a page')
  })

  it('comes under the policy that stands in the page, and may not be framed', async () => {
    const { headers, body } = await report()
    const policy = String(headers['content-security-policy'])
    expect(policy).toMatch(/^default-src 'none'; script-src 'sha256-[^']+'; style-src 'sha256-[^']+'; img-src data:; /)
    expect(policy).toMatch(/; base-uri 'none'; form-action 'none'; frame-ancestors 'none'$/)
    expect(policy).not.toContain('unsafe')
    const written = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(body)?.[1]?.replaceAll('&#39;', "'")
    expect(policy).toBe(`${written}; frame-ancestors 'none'`)
    expect(headers['x-content-type-options']).toBe('nosniff')
  })

  it('is not sent again to a client that holds it', async () => {
    const tag = String((await report()).headers['etag'])
    expect(tag).toMatch(/^"[0-9a-f]{64}-report-[\w+/]{16}"$/)
    const held = await report({ 'if-none-match': tag })
    expect([held.statusCode, held.body]).toEqual([304, ''])
    expect((await report({ 'if-none-match': tag.replace('-report', '-csv') })).statusCode).toBe(200)
  })

  it('is named among the links of the request', async () => {
    const status = (await statusOf(stand, id)) as unknown as { links: Record<string, string> }
    expect(status.links['report']).toBe(`/v1/requests/${id}/report`)
  })

  it.each([
    ['is not there for an id nobody has', 'nobody', 404, '/problems#not-found'],
    ['is not there for rubbish', '%00', 404, '/problems#not-found'],
  ])('%s', async (_what, unknown, status, type) => {
    const reply = await stand.app.inject(`/v1/requests/${unknown}/report`)
    expect(reply.json()).toMatchObject({ status, type })
  })

  it('is not there before the answer, and never when the request was cancelled', async () => {
    const calm = await openStand()
    try {
      const later = (await post(calm, smallRequest(calm.catalogue, {}))).json<{ id: string }>().id
      const early = await calm.app.inject(`/v1/requests/${later}/report`)
      expect(early.json()).toMatchObject({ status: 409, type: '/problems#not-finished' })
      await calm.app.inject({ method: 'DELETE', url: `/v1/requests/${later}` })
      const none = await calm.app.inject(`/v1/requests/${later}/report`)
      expect(none.json()).toMatchObject({ type: '/problems#no-answer' })
    } finally {
      await calm.close()
    }
  })
})

describeInBrowser(browser, 'the report in a browser', (chromium) => {
  it('runs under the policy of its reply', async () => {
    const { headers, body } = await report()
    const policy = String(headers['content-security-policy'])
    const { page, errors, requests, violations, close } = await openPage(chromium, body, {
      headers: { 'content-security-policy': policy },
    })
    await page.locator('th[data-column=cost] button').click()
    expect(await page.locator('th[data-column=cost]').getAttribute('aria-sort')).toBe('ascending')
    expect(await page.locator('svg.lines polyline').count()).toBeGreaterThan(0)
    expect(errors).toEqual([])
    expect(requests).toEqual([])
    expect(await violations()).toEqual([])
    await close()
  })
})

describe('an answer that an earlier release stored', () => {
  const stored = (column: 'result' | 'receipt', write: (old: Record<string, unknown>) => unknown) =>
    withStored(column, (text) => JSON.stringify(write(JSON.parse(text) as Record<string, unknown>)))

  it('is drawn without what its receipt does not say', async () => {
    const result = (await stand.app.inject(`/v1/requests/${id}/result`)).json<Result>()
    await stored('receipt', ({ removed: _, ...others }) => ({ ...others, bounded: [] }))
    expect((await report()).body).toBe(await renderReportPage(result))
    const text = await stand.app.inject(`/v1/requests/${id}/result.txt`)
    expect(text.body).toBe(renderText(result))
  })

  it('with other fields is refused by name instead of drawn, and read as it is', async () => {
    await stored('result', (old) => ({ ...old, counts: { raw: 1, removed: [] } }))
    for (const form of ['report', 'result.txt', 'result.csv']) {
      const reply = await stand.app.inject(`/v1/requests/${id}/${form}`)
      expect(reply.headers['content-type']).toBe('application/problem+json; charset=utf-8')
      expect(reply.headers['content-disposition']).toBeUndefined()
      expect(reply.json()).toMatchObject({
        status: 409,
        type: '/problems#answer-of-earlier-form',
        detail: `The answer was written by models ${MODEL_VERSION} as ductwright-result/1; this release expects other fields there: counts.compatible.`,
      })
    }
    const whole = await stand.app.inject(`/v1/requests/${id}/result`)
    expect([whole.statusCode, whole.json<Result>().counts]).toEqual([200, { raw: 1, removed: [] }])
  })

  async function withStored(column: 'result' | 'receipt', write: (text: string) => string): Promise<void> {
    const { pool } = stand.records
    const { rows } = await pool.query(`select ${column} as text from ductwright.answers where request_id = $1`, [id])
    const text = write((rows[0] as { readonly text: string }).text)
    const set = column === 'result' ? 'result = $2, result_sha256 = $3' : 'receipt = $2'
    const hash = column === 'result' ? [sha256Hex(text)] : []
    await pool.query(`update ductwright.answers set ${set} where request_id = $1`, [id, text, ...hash])
  }
})
