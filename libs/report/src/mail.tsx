// The answer as a mail: the same letter as the plain text, laid out in one column of about 600 px that folds at 320 px.
// No pictures, no script, nothing fetched from outside; text is escaped by the renderer.
import { gzipSync } from 'node:zlib'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import type { Result } from '@ductwright/contract/result'
import { composeLetter } from './compose-letter.js'
import { renderCsv } from './csv.js'
import type { Letter, Section } from './letter.js'
import { Blocks } from './mail-blocks.js'
import { mailPage } from './mail-page.js'
import { answerSubject } from './subject.js'
import { letterText } from './text.js'

const textWidth = 76
// Attachments together stay under 5 MB; base64 adds a third.
const largestPlain = 2_500_000

export interface Attachment {
  readonly filename: string
  readonly contentType: string
  readonly content: Buffer
}

export interface Mail {
  readonly subject: string
  readonly text: string
  readonly html: string
  readonly attachments: readonly Attachment[]
}

export function renderMail(result: Result): Mail {
  return letterMail(composeLetter(result), answerSubject(result), answerFiles(result))
}

/** Any letter as a mail. */
export function letterMail(letter: Letter, subject: string, attachments: readonly Attachment[]): Mail {
  return { subject, text: letterText(letter, textWidth), html: letterHtml(letter), attachments }
}

/** The answer as files. */
export function answerFiles(result: Result): Attachment[] {
  return [
    attachment('ductwright-answer.json', 'application/json', canonicalJson(result)),
    attachment('ductwright-front.csv', 'text/csv', renderCsv(result)),
  ]
}

export function renderMailHtml(result: Result): string {
  return letterHtml(composeLetter(result))
}

function letterHtml(letter: Letter): string {
  return mailPage(
    letter,
    <>
      {letter.sections.map((section) => (
        <SectionView section={section} />
      ))}
      <div class="foot">
        {letter.footer.map((line) => (
          <div>{line}</div>
        ))}
      </div>
    </>,
  )
}

function SectionView({ section }: { readonly section: Section }) {
  return (
    <div class="in">
      {section.heading !== '' && <h2>{section.heading}</h2>}
      <Blocks blocks={section.blocks} />
    </div>
  )
}

/** Large files travel packed, so that a mail server takes them. */
export function attachment(filename: string, contentType: string, text: string): Attachment {
  const content = Buffer.from(text, 'utf8')
  if (content.length <= largestPlain) return { filename, contentType, content }
  return { filename: `${filename}.gz`, contentType: 'application/gzip', content: gzipSync(content, { level: 9 }) }
}
