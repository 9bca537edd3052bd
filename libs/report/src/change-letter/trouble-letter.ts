// The letter for a standing request that can no longer be answered, such as when a part it requires is gone.
import { cut, inert } from '@ductwright/contract/inert'
import type { Letter } from '../letter.js'

const longestSubject = 120

export function composeTroubleLetter(
  title: string,
  cause: string,
): { readonly letter: Letter; readonly subject: string } {
  const shown = inert(title, 100)
  const letter: Letter = {
    title: shown,
    headline: 'Your standing request can no longer be answered.',
    sections: [
      {
        heading: '',
        blocks: [
          { kind: 'paragraph', text: `The reason: ${inert(cause, 1200)}` },
          {
            kind: 'paragraph',
            text: 'It stays as it is and is tried again when the catalogue changes. Change the request to have it answered now.',
          },
        ],
      },
    ],
    footer: [],
  }
  return { letter, subject: cut(inert(`No answer any more: ${shown}`), longestSubject) }
}
