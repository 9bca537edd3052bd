// The whole answer as plain text: for the terminal, and as the text half of the mail.
import type { Receipt, Result } from '@ductwright/contract/result'
import { composeLetter } from './compose-letter.js'
import type { Letter } from './letter.js'
import { sectionsText, softened, wrap } from './plain.js'

const mailWidth = 76

export interface TextOptions {
  readonly width?: number
  /** Of the work, where it is at hand. */
  readonly receipt?: Receipt | null
}

export function renderText(result: Result, { width = mailWidth, receipt = null }: TextOptions = {}): string {
  return letterText(composeLetter(result, receipt), width)
}

export function letterText(letter: Letter, width: number): string {
  const head = [...wrap(letter.title, width), '', ...wrap(letter.headline, width), '']
  const foot = ['', '-'.repeat(width), ...letter.footer.flatMap((line) => wrap(line, width))]
  return `${softened(head.join('\n'))}\n${sectionsText(letter.sections, width)}\n${softened(foot.join('\n'))}\n`
}
