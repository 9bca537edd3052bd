// The script and the style of the page with the policy that allows these two and nothing else. They are the same for
// every answer, so the policy of the page can also stand in the header of its reply.
import { createHash } from 'node:crypto'
import { linkModules } from './link-modules.js'
import { pageStyle } from './page-style.js'

export interface PageParts {
  readonly script: string
  readonly style: string
  /** For a meta element, which takes no rule on frames. */
  readonly policy: string
}

export async function pageParts(): Promise<PageParts> {
  const script = await linkModules(new URL('./browser/report-page.js', import.meta.url), 'startReportPage')
  return { script, style: pageStyle, policy: policyOf(script, pageStyle) }
}

/** The policy of every report page, for the header of a reply. */
export async function reportPolicy(): Promise<string> {
  const { policy } = await pageParts()
  return `${policy}; frame-ancestors 'none'`
}

function policyOf(script: string, style: string): string {
  return [
    "default-src 'none'",
    `script-src ${hashOf(script)}`,
    `style-src ${hashOf(style)}`,
    'img-src data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ')
}

function hashOf(text: string): string {
  return `'sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}'`
}
