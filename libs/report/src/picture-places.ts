// Which section of the letter a chart stands in: at its end, beside the words it draws. A chart whose section is not part
// of this letter stands in one of their own, in front of the grounds.
import type { Picture, Section } from './letter.js'
import { understoodHeading } from './section-basis.js'

/** Chart by chart, the headings it may stand under; the first that the letter has counts. */
const places: Readonly<Record<string, readonly string[]>> = {
  temperatures: ['What it will do'],
  'thrust-drag': ['Why this one'],
  'speed-cost': ['The list'],
  'trade-offs': ['The list'],
  staircase: ['Step by step', 'The list'],
}

export function pictured(sections: readonly Section[], pictures: readonly Picture[]): Section[] {
  const placed = pictures.map((picture) => ({ picture, heading: headingFor(picture.id, sections) }))
  const illustrated = sections.map((section) =>
    withPictures(
      section,
      placed.filter(({ heading }) => heading === section.heading),
    ),
  )
  const left = placed.filter(({ heading }) => heading === undefined)
  if (left.length === 0) return illustrated
  const at = illustrated.findIndex(({ heading }) => heading === understoodHeading)
  const own = withPictures({ heading: 'In pictures', blocks: [] }, left)
  return [...illustrated.slice(0, at), own, ...illustrated.slice(at)]
}

function headingFor(id: string, sections: readonly Section[]): string | undefined {
  return places[id]?.find((wanted) => sections.some(({ heading }) => heading === wanted))
}

function withPictures(section: Section, placed: readonly { readonly picture: Picture }[]): Section {
  const blocks = placed.map(({ picture }) => ({ kind: 'picture' as const, picture }))
  return { ...section, blocks: [...section.blocks, ...blocks] }
}
