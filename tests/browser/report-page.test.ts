// The page as a person uses it: sorted by clicks, brushed by mouse and by keyboard, asked why not; on a desk and on a
// telephone, by day and by night, with and without its script. Nothing is fetched and nothing is refused meanwhile.
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { COLOURS } from '@ductwright/report/charts/theme'
import { sortedRanks } from '@ductwright/report/page/browser/sort-table'
import { pageData } from '@ductwright/report/page/page-data'
import { renderReportPage } from '@ductwright/report/page/report-page'
import { comparisonOf, whyNot } from '@ductwright/report/page/why-not'
import { whyNotWords } from '@ductwright/report/page/why-not-words'
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest'
import { answer } from '../report/fixture.js'
import { contrast, rgb } from './colour.js'
import { describeInBrowser, testBrowser } from './test-browser.js'
import { type Opening, openPage, shownRanks, type Watched } from './watched-page.js'

const browser = await testBrowser()
afterAll(() => browser?.close())

describeInBrowser(browser, 'the report page', (chromium) => {
  const result = answer({ members: 24 })
  const data = pageData(result)
  let html: string
  let watched: Watched

  beforeAll(async () => {
    html = await renderReportPage(result)
  })

  const open = async (options: Opening = {}) => {
    watched = await openPage(chromium, html, options)
    return watched.page
  }

  afterEach(async () => {
    expect(watched.errors).toEqual([])
    expect(watched.requests).toEqual([])
    await watched.close()
  })

  it('is sorted by a click on any column, and turned round by a second', async () => {
    const page = await open()
    const heads = page.locator('#whole-list th[data-column]')
    const columns = await heads.evaluateAll((all) => all.map((head) => (head as HTMLElement).dataset['column'] ?? ''))
    expect(columns).toHaveLength(9)
    for (const column of columns) {
      const head = page.locator(`#whole-list th[data-column="${column}"]`)
      const first = (await head.getAttribute('aria-sort')) === 'ascending' ? 'descending' : 'ascending'
      for (const order of [first, first === 'ascending' ? 'descending' : 'ascending']) {
        await head.getByRole('button').click()
        expect(await head.getAttribute('aria-sort')).toBe(order)
        expect(await shownRanks(page)).toEqual(sortedRanks(data.rows, column, order === 'descending'))
      }
      expect(await page.locator('#whole-list th[aria-sort]').count()).toBe(1)
    }
    expect(await watched.violations()).toEqual([])
  })

  it('keeps what a drag along an axis picks, and lets go at a click', async () => {
    const page = await open()
    const strip = page.locator('[data-axis=cost] .strip')
    await strip.scrollIntoViewIfNeeded()
    const box = (await strip.boundingBox())!
    const x = box.x + box.width / 2
    await page.mouse.move(x, box.y + 6)
    await page.mouse.down()
    await page.mouse.move(x, box.y + box.height / 3)
    await page.mouse.move(x, box.y + box.height / 2)
    await page.mouse.up()
    const kept = await shownRanks(page)
    expect(kept.length).toBeGreaterThan(0)
    expect(kept.length).toBeLessThan(24)
    const most = Number(await page.locator('input[name=cost-high]').inputValue())
    const cheaper = data.rows.filter(({ raw }) => raw.cost <= most).map(({ rank }) => rank)
    expect(kept).toEqual(cheaper)
    expect(await page.locator('polyline.out').count()).toBe(24 - kept.length)
    expect(await page.locator('#kept').textContent()).toBe(`${kept.length} of 24 setups shown`)
    await strip.click()
    expect(await shownRanks(page)).toHaveLength(24)
    expect(await page.locator('input[name=cost-high]').inputValue()).toBe('')
  })

  it('is brushed with the keyboard alone: ends typed, all shown again', async () => {
    const page = await open()
    await page.locator('input[name=speed_km_h-low]').focus()
    await page.keyboard.type('361')
    await page.keyboard.press('Tab')
    await page.keyboard.type('362')
    const within = data.rows.filter(({ raw }) => raw.speed_km_h >= 361 && raw.speed_km_h <= 362).map(({ rank }) => rank)
    expect(within.length).toBeGreaterThan(0)
    expect(await shownRanks(page)).toEqual(within)
    const span = page.locator('[data-axis=speed_km_h] .span')
    expect(Number(await span.getAttribute('height'))).toBeGreaterThan(2)
    await page.locator('#reset').focus()
    await page.keyboard.press('Enter')
    expect(await shownRanks(page)).toHaveLength(24)
    expect(await page.locator('input[name=speed_km_h-low]').inputValue()).toBe('')
  })

  it('counts flight time in minutes and the distance to the design load in per cent', async () => {
    const page = await open()
    const time = (data.rows[5]?.raw.flight_time_s ?? 0) / 60
    await page.locator('input[name=flight_time_s-low]').fill(String(time))
    expect(await shownRanks(page)).toEqual(
      data.rows.filter(({ raw }) => raw.flight_time_s >= time * 60 - 1e-9).map(({ rank }) => rank),
    )
    await page.locator('#reset').click()
    await page.locator('input[name=margin-low]').fill('25')
    expect(await shownRanks(page)).toEqual(data.rows.filter(({ raw }) => raw.margin >= 0.25).map(({ rank }) => rank))
  })

  it('says of any setup why not, also from the keyboard', async () => {
    const page = await open()
    const row = page.locator('tr[data-rank="5"]')
    expect(await row.locator('details ul').isVisible()).toBe(false)
    await row.locator('summary').focus()
    await page.keyboard.press('Enter')
    const told = (await row.locator('details ul').textContent()) ?? ''
    const others = result.front.filter(({ rank }) => rank !== 5)
    const verdict = whyNot(others, result.front[4]!.raw, comparisonOf(result))!
    expect(told).toContain(whyNotWords(verdict, 'EUR'))
    expect(told).toContain('What keeps it from being faster: speed controller current stops')
    expect(told).toContain('Purchase 2 has 3 settings in the list')
    expect(await page.locator('details').count()).toBe(24)
  })

  it('answers for numbers of one’s own', async () => {
    const page = await open()
    const field = (name: string) => page.locator(`#own-numbers input[name=${name}]`)
    await field('speed').fill('350')
    expect(await page.locator('#own-verdict').textContent()).toBe('All four numbers, please.')
    await field('time').fill('4')
    await field('cost').fill('800')
    await field('margin').fill('20')
    expect(await page.locator('#own-verdict').textContent()).toMatch(
      /^Beaten by number\s1, which is no worse in anything that counts and 12\skm\/h faster, 23\ss longer in the air, 29\sEUR cheaper and 5\s% of the design load safer\.$/,
    )
    await field('cost').fill('10')
    expect(await page.locator('#own-verdict').textContent()).toMatch(/^Nothing in the list beats it in everything/)
  })

  it.each([320, 600, 1280])('fits a screen %i px wide: nothing sticks out at the side', async (width) => {
    const page = await open({ width })
    await page
      .locator('details')
      .first()
      .evaluate((one) => one.setAttribute('open', ''))
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width)
    const wide = await page.evaluate(() =>
      [...document.querySelectorAll('main *')]
        .filter((one) => one.closest('.scroll') === null && one.getBoundingClientRect().right > innerWidth + 0.5)
        .map((one) => one.outerHTML.slice(0, 80)),
    )
    expect(wide).toEqual([])
    const heads = await page.locator('#whole-list th button').evaluateAll((all) =>
      all.map((one) => {
        const { left, right, top, bottom } = one.getBoundingClientRect()
        return { left, right, top, bottom }
      }),
    )
    const touching = heads.filter((a, at) =>
      heads.some(
        (b, other) => other > at && a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom,
      ),
    )
    expect(touching).toEqual([])
  })

  it('shows the charts laid out for the width of the screen', async () => {
    const page = await open({ width: 320 })
    const figure = page.locator('figure').first()
    expect(await figure.locator('.narrow svg').first().isVisible()).toBe(true)
    expect(await figure.locator('.wide').isVisible()).toBe(false)
    const text = figure.locator('.narrow svg text').first()
    const size = await text.evaluate((one) => one.getBoundingClientRect().height)
    expect(size).toBeGreaterThan(9)
  })

  it.each([false, true])('can be read by night and by day (dark: %s)', async (dark) => {
    const page = await open({ dark })
    const tone = dark ? 'dark' : 'light'
    const paper = await page.locator('body').evaluate((one) => getComputedStyle(one).backgroundColor)
    expect(paper).toBe(rgb(COLOURS.paper[tone]))
    for (const words of ['h1', 'h3', 'dt', '.note', 'td', 'th button', 'summary', 'nav a', '#kept', '.lines .name']) {
      const { colour, behind } = await page.locator(words).first().evaluate(seenColours)
      expect(`${words} ${contrast(colour, behind) >= 4.5}`).toBe(`${words} true`)
    }
    const drawn = await page
      .locator('figure .wide svg text')
      .evaluateAll((all) => all.map((one) => getComputedStyle(one).fill))
    expect(drawn.length).toBeGreaterThan(5)
    // Letters of the paper's own colour are the rim that keeps lines off the letters before them.
    for (const fill of new Set(drawn.filter((one) => one !== paper))) expect(contrast(fill, paper)).toBeGreaterThan(3)
  })

  it('is complete without its script', async () => {
    const page = await open({ script: false })
    expect(await page.locator('#whole-list tbody tr:visible').count()).toBe(24)
    expect(await page.locator('[data-tool]:visible').count()).toBe(0)
    expect(await page.locator('button:visible').count()).toBe(0)
    expect(await page.locator('.card:visible').count()).toBe(3)
    await page.locator('tr[data-rank="2"] summary').click()
    expect(await page.locator('tr[data-rank="2"] details li').first().isVisible()).toBe(true)
    for (const caution of result.cautions) expect(await page.getByText(caution).first().isVisible()).toBe(true)
  })

  it('works from a file', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'ductwright-page-'))
    try {
      const file = join(folder, 'report.html')
      await writeFile(file, html)
      const page = await open()
      await page.unroute('**/*')
      await page.goto(pathToFileURL(file).href)
      await page.locator('th[data-column=cost] button').click()
      expect(await shownRanks(page)).toEqual(sortedRanks(data.rows, 'cost', false))
      expect(await watched.violations()).toEqual([])
    } finally {
      await rm(folder, { recursive: true })
    }
  })

  it('stands without a list when nothing was found', async () => {
    html = await renderReportPage(answer({ outcome: 'none' }))
    const page = await open()
    expect(await page.locator('#whole-list').count()).toBe(0)
    expect(await page.locator('.card').count()).toBe(0)
    expect(await page.locator('h1').textContent()).toMatch(/^Not with this airframe/)
    expect(await watched.violations()).toEqual([])
  })
})

/** Colour of a text and of what is behind it, as the browser has worked them out. */
function seenColours(one: Element): { colour: string; behind: string } {
  const style = getComputedStyle(one)
  const colour = one instanceof SVGElement ? style.fill : style.color
  for (let at: Element | null = one; at !== null; at = at.parentElement) {
    const behind = getComputedStyle(at).backgroundColor
    if (!behind.endsWith(', 0)')) return { colour, behind }
  }
  return { colour, behind: 'rgb(255, 255, 255)' }
}
