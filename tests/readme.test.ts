// The request, the mail and the curves that the pages show are the examples and what they really yield.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Result } from '@ductwright/contract/result'
import { renderText } from '@ductwright/report/text'
import { expect, it } from 'vitest'
import { ductwright, projectFolder } from './cli/command.js'

const EXAMPLE = 'examples/composite-to-360.json'

/** First fenced block of a language. */
function block(language: string): string {
  const page = readFileSync(join(projectFolder, 'README.md'), 'utf8')
  const found = new RegExp(`^\`\`\`${language}\\n([\\s\\S]*?)^\`\`\`$`, 'm').exec(page)
  if (found?.[1] === undefined) throw new Error(`README.md has no ${language} block`)
  return found[1]
}

it('README shows the example request', () => {
  expect(block('json')).toBe(readFileSync(join(projectFolder, EXAMPLE), 'utf8'))
})

it('README shows the beginning of the mail that the example yields', async () => {
  const { code, out } = await ductwright(['sweep', EXAMPLE, '--json'])
  expect(code).toBe(0)
  const mail = renderText(JSON.parse(out) as Result)
  const shown = block('text').trimEnd()
  expect(shown.split('\n').length).toBeGreaterThan(40)
  expect(mail.slice(0, shown.length)).toBe(shown)
})

it('docs/plots.html shows the curves of the example setup (drawn anew by scripts/plots.mjs)', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'ductwright-page-'))
  try {
    const page = join(folder, 'plots.html')
    await ductwright(['evaluate', 'examples/present-setup.json', '--json', '--plots', page])
    expect(readFileSync(page, 'utf8')).toBe(readFileSync(join(projectFolder, 'docs/plots.html'), 'utf8'))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
})
