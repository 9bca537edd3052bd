// Temporary look.
import { writeFileSync } from 'node:fs'
import { renderMail } from '@ductwright/report/mail'
import { renderSetupReport } from '@ductwright/report/setup-report'
import { expect, it } from 'vitest'
import { answer, setupReport } from './fixture.js'
it('x', () => {
  const mail = renderMail(answer({ members: 700 }))
  writeFileSync('/tmp/rp/mail.html', mail.html)
  writeFileSync('/tmp/rp/mail.txt', mail.text)
  writeFileSync('/tmp/rp/short.html', renderMail(answer({ members: 700, outcome: 'short' })).html)
  writeFileSync('/tmp/rp/setup.txt', renderSetupReport(setupReport()))
  expect(1).toBe(1)
})
