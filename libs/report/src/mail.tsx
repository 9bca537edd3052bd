// The answer as a mail: the same letter as the plain text, laid out in one column of about 600 px that folds at 320 px.
// No script, nothing fetched from outside; charts come along as pictures, and their words say the same without them. Text
// is escaped by the renderer.
import { gzipSync } from 'node:zlib'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import type { Receipt, Result } from '@ductwright/contract/result'
import { composeLetter } from './compose-letter.js'
import { renderCsv } from './csv.js'
import type { Letter, Section } from './letter.js'
import { Blocks, type PictureAddress } from './mail-blocks.js'
import { mailPage } from './mail-page.js'
import { type DrawnPicture, drawnPictures } from './pictures.js'
import { answerSubject } from './subject.js'
import { letterText } from './text.js'

const textWidth = 76
/** Pictures of a mail are laid out for the narrowest screen, since few mail readers choose between two. */
export const pictureLayout = 320
// Attachments together stay under 5 MB; base64 adds a third, and pictures take less than half a megabyte.
const largestPlain = 2_500_000

export interface Attachment {
  readonly filename: string
  readonly contentType: string
  readonly content: Buffer
  /** Content id of a picture that the HTML shows; null for a file to be saved. */
  readonly contentId: string | null
}

export interface Mail {
  readonly subject: string
  readonly text: string
  readonly html: string
  readonly attachments: readonly Attachment[]
}

/** `receipt` is that of the work, where it is at hand. */
export async function renderMail(result: Result, receipt: Receipt | null = null): Promise<Mail> {
  return mailOf(result, receipt, await drawnPictures(result, pictureLayout))
}

export function mailOf(result: Result, receipt: Receipt | null, pictures: readonly DrawnPicture[]): Mail {
  const letter = composeLetter(result, receipt, pictures)
  return letterMail(letter, answerSubject(result), answerAttachments(result), pictures)
}

/** Any letter as a mail. */
export function letterMail(
  letter: Letter,
  subject: string,
  attachments: readonly Attachment[],
  pictures: readonly DrawnPicture[] = [],
): Mail {
  return {
    subject,
    text: letterText(letter, textWidth),
    html: letterHtml(letter, (id) => `cid:${pictures.find((picture) => picture.id === id)?.contentId ?? id}`),
    attachments: [...pictures.map(inline), ...attachments],
  }
}

/** The answer as files of a mail. */
export function answerAttachments(result: Result): Attachment[] {
  return [
    attachment('ductwright-answer.json', 'application/json', canonicalJson(result)),
    attachment('ductwright-answer.csv', 'text/csv', renderCsv(result)),
  ]
}

export function letterHtml(letter: Letter, address: PictureAddress): string {
  return mailPage(
    letter,
    <>
      {letter.sections.map((section) => (
        <SectionView section={section} address={address} />
      ))}
      <div class="foot">
        {letter.footer.map((line) => (
          <div>{line}</div>
        ))}
      </div>
    </>,
  )
}

function SectionView({ section, address }: { readonly section: Section; readonly address: PictureAddress }) {
  return (
    <div class="in">
      {section.heading !== '' && <h2>{section.heading}</h2>}
      <Blocks blocks={section.blocks} address={address} />
    </div>
  )
}

function inline({ id, png, contentId }: DrawnPicture): Attachment {
  return { filename: `${id}.png`, contentType: 'image/png', content: Buffer.from(png), contentId }
}

/** Large files travel packed, so that a mail server takes them. */
export function attachment(filename: string, contentType: string, text: string): Attachment {
  const content = Buffer.from(text, 'utf8')
  const whole = { filename, contentType, content, contentId: null }
  if (content.length <= largestPlain) return whole
  const packed = gzipSync(content, { level: 9 })
  return { ...whole, filename: `${filename}.gz`, contentType: 'application/gzip', content: packed }
}
