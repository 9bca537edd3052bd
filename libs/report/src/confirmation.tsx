// The mail that asks an owner whether an address may be written to. Its link only opens a page; the page's button
// confirms, so a scanner that follows links confirms nothing.
import { cut, inert } from '@ductwright/contract/inert'
import type { Mail } from './mail.js'
import { mailPage } from './mail-page.js'
import { wrap } from './plain.js'

/** Refuses what is not a web address: `javascript:` and friends have no place behind a button. */
function webAddress(text: string): string {
  const parsed = URL.canParse(text) ? new URL(text) : null
  if (parsed === null || !['https:', 'http:'].includes(parsed.protocol) || parsed.username !== '') {
    throw new RangeError(`confirmUrl must be an http or https address without a user name, got ${cut(inert(text), 80)}`)
  }
  return parsed.href
}

export function confirmationMail(confirmUrl: string, title: string): Mail {
  const url = webAddress(confirmUrl)
  const shown = inert(title, 100)
  const headline = 'May answers come to this address?'
  const paragraphs = [
    `Someone, we hope you, asked for the answer to “${shown}” to be sent here.`,
    'Open the page below and press its button to agree. Opening it alone changes nothing.',
  ]
  const otherwise = 'If it was not you, do nothing: no answer will be sent, and you need not reply.'
  const text = [
    headline,
    '',
    ...paragraphs.flatMap((words) => [...wrap(words, 76), '']),
    url,
    '',
    ...wrap(otherwise, 76),
  ]
  const content = (
    <div class="in">
      {paragraphs.map((words) => (
        <p>{words}</p>
      ))}
      <p>
        <a class="go" href={url}>
          Open the page
        </a>
      </p>
      <p class="note address">{url}</p>
      <p>{otherwise}</p>
    </div>
  )
  return {
    subject: cut(inert(`Please confirm: answers to “${shown}”`), 120),
    text: `${text.join('\n')}\n`,
    html: mailPage({ title: shown, headline }, content),
    attachments: [],
  }
}
