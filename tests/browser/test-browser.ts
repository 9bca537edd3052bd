// The browser of the tests: a Chromium of this machine, without a window. Where there is none, the tests that need it fail
// where CI asks for them and are skipped loudly elsewhere.
import { type Browser, chromium } from 'playwright-core'
import { describe, it } from 'vitest'
import { readServerConfig } from '../servers/config.js'
import { findProgram } from '../servers/local-program.js'
import { sayMissing } from '../servers/test-server.js'

const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable']

export async function testBrowser(): Promise<Browser | null> {
  const { path } = readServerConfig()
  for (const name of names) {
    const executablePath = await findProgram(name, path)
    // Its sandbox needs rights that a container does not give; it opens nothing but pages of these tests.
    if (executablePath !== null) return chromium.launch({ executablePath, args: ['--no-sandbox'] })
  }
  return sayMissing('CHROMIUM', 'Install chromium, so that it is found on the PATH.')
}

export function describeInBrowser(browser: Browser | null, name: string, body: (browser: Browser) => void): void {
  if (browser !== null) {
    describe(name, () => body(browser))
  } else if (readServerConfig().ci) {
    it(`${name}: needs a browser, and CI must have one`, () => {
      throw new Error('no Chromium on the PATH')
    })
  } else {
    describe.skip(`${name} (no browser on this machine)`, () => body(browser as never))
  }
}
