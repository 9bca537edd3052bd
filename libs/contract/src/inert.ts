// Text from outside (part names, titles, addresses) made harmless for any medium: control characters, bidirectional
// overrides, invisible marks and broken surrogates are shown as U+FFFD, line breaks and tabs become one space. The
// escaping that belongs to one medium (HTML, CSV, mail headers) stays with that medium; this is what they all need.

const blank = /[\t\n\v\f\r\u0085\u2028\u2029]+/gu
// Controls, soft hyphen, Arabic letter mark, zero-width marks, directional marks, overrides, isolates, byte order mark,
// interlinear marks, tag characters, lone surrogates.
const unseen =
  /[\p{Control}\u00ad\u061c\u180e\u200b-\u200f\u202a-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}\p{Surrogate}]/gu
// More than two marks on one letter only serve to smear over the lines above and below.
const heapedMarks = /(\p{Mark}{2})\p{Mark}+/gu
const wide =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{1f000}-\u{1faff}\u{20000}-\u{3fffd}]/u
const narrowless = /[\p{Mark}\p{Format}]/u

/** One line of visible text, cut to `most` characters. */
export function inert(text: string, most = 2000): string {
  const line = text.replace(blank, ' ').replace(unseen, '\ufffd').replace(heapedMarks, '$1').trim()
  return cut(line, most)
}

/** Columns the text takes on a terminal: marks take none, East Asian wide characters and pictographs two. */
export function columns(text: string): number {
  let sum = 0
  for (const character of text) sum += narrowless.test(character) ? 0 : wide.test(character) ? 2 : 1
  return sum
}

/** The text cut to `most` columns, the cut shown by an ellipsis. */
export function cut(text: string, most: number): string {
  if (columns(text) <= most) return text
  let kept = ''
  let taken = 0
  for (const character of text) {
    taken += columns(character)
    if (taken > most - 1) break
    kept += character
  }
  return `${kept.trimEnd()}…`
}
