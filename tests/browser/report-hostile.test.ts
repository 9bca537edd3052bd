// Names that carry markup, scripts, formulas, line breaks and marks that turn text round do nothing in the page: they are
// shown, and that is all.
import type { Result } from '@ductwright/contract/result'
import { renderReportPage } from '@ductwright/report/page/report-page'
import { afterAll, expect, it } from 'vitest'
import { answer } from '../report/fixture.js'
import { describeInBrowser, testBrowser } from './test-browser.js'
import { openPage, shownRanks } from './watched-page.js'

const browser = await testBrowser()
afterAll(() => browser?.close())

const breakouts = [
  '</script><script>window.broken = 1</script>',
  '<!--<script>',
  '</style><style>*{display:none}</style>',
  '"><svg onload=alert(3)>',
  '</title><base href=//evil.example/>',
  '\u2028\u2029</textarea><iframe src=//evil.example>',
  '&lt;script&gt; &#x3c;',
  '\\u003cscript\\u003e {{1+1}} `',
]

/** Every text of the answer that comes from outside gets one of them. */
function broken(result: Result): Result {
  const names = Object.fromEntries(
    Object.keys(result.names).map((id, at) => [id, breakouts[at % breakouts.length] ?? '']),
  )
  const understood = { ...result.understood, title: breakouts[0] ?? '' }
  const catalogue = { ...result.catalogue, name: breakouts[2] ?? '', currency: '</b>' }
  const airframe = { ...result.airframe, name: breakouts[4] ?? '' }
  return { ...result, names, understood, catalogue, airframe }
}

describeInBrowser(browser, 'hostile names in the page', (chromium) => {
  it.each([
    ['of every kind', answer({ hostile: true })],
    ['that try to leave their element', broken(answer())],
  ])('%s are shown and do nothing', async (_kind, result) => {
    const html = await renderReportPage(result)
    const { page, errors, requests, violations, close } = await openPage(chromium, html, { width: 320 })
    expect(errors).toEqual([])
    expect(requests).toEqual([])
    expect(await violations()).toEqual([])
    expect(await page.evaluate(() => 'broken' in window)).toBe(false)
    expect(await page.locator('img, iframe, base, object, textarea, [onload], [onerror]').count()).toBe(0)
    expect(await page.locator('script').count()).toBe(2)
    expect(await page.locator('style').count()).toBe(1)
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(320)
    const text = await page.evaluate(() => document.documentElement.textContent ?? '')
    expect(text).not.toMatch(/[\u202a-\u202e\u2066-\u2069\u200e\u200f]/)
    await page.locator('th[data-column=parts] button').click()
    expect(await shownRanks(page)).toHaveLength(24)
    await close()
  })

  it('are still to be read as they were written', async () => {
    const { page, close } = await openPage(chromium, await renderReportPage(broken(answer())))
    const row = page.locator('tr[data-rank="1"] .what')
    const parts = (await row.textContent()) ?? ''
    for (const name of [
      '<!--<script>',
      '</textarea><iframe src=//evil.example>',
      '</style><style>*{display:none}</style>',
    ]) {
      expect(parts).toContain(name)
    }
    expect(await page.locator('.top .note').textContent()).toContain(breakouts[0])
    await close()
  })
})
