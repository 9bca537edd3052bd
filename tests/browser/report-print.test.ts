// The page on paper, A4 and Letter: each bench card on one sheet of its own, heads of the long table on every sheet it
// runs over, nothing that cannot be used on paper.
import { renderReportPage } from '@ductwright/report/page/report-page'
import { PDFDocument } from 'pdf-lib'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { answer } from '../report/fixture.js'
import { describeInBrowser, testBrowser } from './test-browser.js'
import { openPage } from './watched-page.js'

const browser = await testBrowser()
afterAll(() => browser?.close())

type Format = 'A4' | 'Letter'

async function sheets(page: Page, format: Format): Promise<number> {
  const pdf = await PDFDocument.load(await page.pdf({ format }))
  return pdf.getPageCount()
}

const only = (page: Page, selector: string) =>
  page.evaluate((wanted) => {
    const kept = document.querySelector(wanted)
    if (kept !== null) document.body.replaceChildren(kept)
  }, selector)

const without = (page: Page, selector: string) =>
  page.evaluate((unwanted) => {
    for (const one of document.querySelectorAll(unwanted)) one.remove()
  }, selector)

describeInBrowser(browser, 'the printed page', (chromium) => {
  const pages = new Map<string, string>()

  beforeAll(async () => {
    pages.set('plain', await renderReportPage(answer({ members: 70 })))
    pages.set('hostile', await renderReportPage(answer({ hostile: true })))
  })

  it.each([
    ['plain', 'A4'],
    ['plain', 'Letter'],
    ['hostile', 'A4'],
    ['hostile', 'Letter'],
  ] as const)('has each bench card whole on one sheet (%s names, %s)', async (kind, format) => {
    const { page, errors, close } = await openPage(chromium, pages.get(kind) ?? '')
    const cards = await page.locator('.card').count()
    expect(cards).toBe(3)
    const all = await sheets(page, format)
    await without(page, '.cards')
    expect(await sheets(page, format)).toBe(all - cards)
    expect(errors).toEqual([])
    await close()
  })

  it.each(['A4', 'Letter'] as const)('has one card on the sheet of a card alone (%s)', async (format) => {
    const { page, close } = await openPage(chromium, pages.get('plain') ?? '')
    await only(page, '.cards')
    expect(await sheets(page, format)).toBe(3)
    const text = await page.locator('.card').first().textContent()
    for (const heading of ['Parts', 'Set', 'On the bench', 'Throttle off if', 'In the air', 'Cautions']) {
      expect(text).toContain(heading)
    }
    await close()
  })

  it('repeats the heads of the long table on every sheet', async () => {
    const { page, close } = await openPage(chromium, pages.get('plain') ?? '')
    await only(page, '#whole-list')
    const before = await sheets(page, 'A4')
    expect(before).toBeGreaterThan(4)
    // Heads made tall by a sixth of a sheet take that much of each sheet they stand on.
    await page.evaluate(() => {
      const head = document.querySelector<HTMLElement>('#whole-list th')
      if (head !== null) head.style.height = '45mm'
    })
    expect(await sheets(page, 'A4')).toBeGreaterThanOrEqual(before + Math.floor(before / 8))
    await close()
  })

  it('leaves out what only works on a screen', async () => {
    const { page, close } = await openPage(chromium, pages.get('plain') ?? '')
    await page.emulateMedia({ media: 'print' })
    for (const screen of ['nav', '[data-tool]', 'summary']) {
      expect(`${screen} ${await page.locator(`${screen}:visible`).count()}`).toBe(`${screen} 0`)
    }
    expect(await page.locator('#whole-list tbody tr:visible').count()).toBe(70)
    expect(await page.locator('figure .wide svg:visible').count()).toBeGreaterThan(1)
    const paper = await page.locator('body').evaluate((one) => getComputedStyle(one).backgroundColor)
    expect(paper).toBe('rgba(0, 0, 0, 0)')
    await close()
  })
})
