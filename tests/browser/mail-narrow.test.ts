// Every kind of mail on the narrowest telephone: nothing reaches over its edge, however long a word in it is.

import { batchMail, changeMail, troubleMail } from '@ductwright/report/change-letter/change-mail'
import { confirmationMail } from '@ductwright/report/confirmation'
import { renderMail } from '@ductwright/report/mail'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { answer } from '../report/fixture.js'
import { itemSummary } from '../report/fixture-batch.js'
import { receipt, takenOver } from '../report/fixture-receipt.js'
import { describeInBrowser, testBrowser } from './test-browser.js'
import { openPage } from './watched-page.js'

const browser = await testBrowser()
const url = `https://jets.example.org/unsubscribe?token=${'0123456789abcdefghijklmnopqrstuvwxyz'.repeat(2)}`
const WORD = 'Rindkjarslaverholmsvagtenunderlagstraverundskabelinger'.repeat(2)

describeInBrowser(browser, 'a mail on a screen of 320 px', (chromium) => {
  const mails = new Map<string, string>()
  beforeAll(async () => {
    const long = answer()
    const names = Object.fromEntries(Object.keys(long.names).map((id) => [id, `${id} ${WORD}`]))
    const given = {
      reached: await renderMail(answer(), receipt()),
      short: await renderMail(answer({ outcome: 'short' }), receipt()),
      none: await renderMail(answer({ outcome: 'none' }), receipt()),
      'long names': await renderMail({ ...long, names }, receipt()),
      changed: changeMail(answer(), { ...long, names }, [], url, takenOver),
      trouble: troubleMail(`My ${WORD}`, `/required/0: no part has the id "${WORD}"`, url),
      batch: batchMail(summary(), url),
      confirmation: confirmationMail(url, `My ${WORD}`),
    }
    for (const [kind, { html }] of Object.entries(given)) mails.set(kind, html)
  })
  afterAll(() => chromium.close())

  it.each(['reached', 'short', 'none', 'long names', 'changed', 'trouble', 'batch', 'confirmation'])(
    '%s: stays inside',
    async (kind) => {
      const { page, close } = await openPage(chromium, mails.get(kind) ?? '', { width: 320 })
      try {
        expect(await page.locator('h1').count()).toBe(1)
        expect(await page.evaluate(over)).toEqual([])
      } finally {
        await close()
      }
    },
  )
})

/** Texts that reach over the right edge. */
function over(): string[] {
  const wide = [...document.querySelectorAll('body *')].filter(
    (one) => one.children.length === 0 && one.getBoundingClientRect().right > innerWidth + 0.5,
  )
  return wide.map((one) => `${one.tagName}.${one.className} ${(one.textContent ?? '').slice(0, 80)}`)
}

function summary() {
  const item = itemSummary({ title: `Jet ${WORD}`, airframe_name: `Jet ${WORD}` })
  const { title, airframe, airframe_name, treatments, steps, names } = item
  const ended = { request: 'r', title, state: 'answered', cause: null, summary: item }
  return {
    format: 'ductwright-batch/1' as const,
    title: `Six ${WORD}`,
    currency: 'EUR',
    items: [
      { ...ended, index: 0 },
      { ...ended, index: 1, state: 'failed', cause: WORD, summary: null },
    ],
    staircases: [{ airframe, airframe_name, treatments, steps }],
    names,
  }
}
