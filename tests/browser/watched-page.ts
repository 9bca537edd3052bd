// A page opened under watch: what it logs, what it asks the network for, what its policy refuses.
import type { Browser, Page } from 'playwright-core'

/** Where the page seems to come from; nothing is listening there. */
export const ADDRESS = 'http://report.test/'

export interface Watched {
  readonly page: Page
  /** Errors and warnings of the console, and uncaught errors. */
  readonly errors: readonly string[]
  /** Every address asked for besides the page itself. */
  readonly requests: readonly string[]
  /** What the content security policy has refused so far. */
  violations(): Promise<readonly string[]>
  close(): Promise<void>
}

export interface Opening {
  readonly width?: number
  readonly height?: number
  readonly dark?: boolean
  readonly script?: boolean
  readonly headers?: Readonly<Record<string, string>>
}

export async function openPage(browser: Browser, html: string, options: Opening = {}): Promise<Watched> {
  const { width = 1280, height = 900, dark = false, script = true, headers = {} } = options
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: dark ? 'dark' : 'light',
    javaScriptEnabled: script,
  })
  const page = await context.newPage()
  const errors: string[] = []
  const requests: string[] = []
  page.on('pageerror', (error) => errors.push(error.message))
  page.on('dialog', (dialog) => {
    errors.push(`dialog: ${dialog.message()}`)
    void dialog.dismiss()
  })
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) errors.push(message.text())
  })
  await page.route('**/*', (route) => {
    const url = route.request().url()
    if (url === ADDRESS) return route.fulfill({ contentType: 'text/html; charset=utf-8', body: html, headers })
    requests.push(url)
    return route.abort()
  })
  await page.addInitScript(() => {
    const refused: string[] = []
    Object.assign(window, { refused })
    document.addEventListener('securitypolicyviolation', (event) => {
      refused.push(`${event.violatedDirective} ${event.blockedURI} ${event.sample}`)
    })
  })
  await page.goto(ADDRESS)
  return {
    page,
    errors,
    requests,
    violations: () => page.evaluate(() => (window as unknown as { refused: string[] }).refused),
    close: () => context.close(),
  }
}

/** Ranks of the rows of the table that are shown, from top to bottom. */
export function shownRanks(page: Page): Promise<number[]> {
  return page
    .locator('#whole-list tbody tr:visible')
    .evaluateAll((rows) => rows.map((row) => Number((row as HTMLElement).dataset['rank'])))
}
