// A bench card on the page: its letter with all but the first and the last section, which run across, set in two columns
// where there is room, so that it fits on one sheet of paper.
import type { Letter, Section } from '../letter.js'
import { anchor } from './anchor.js'
import { Blocks } from './report-blocks.js'

export function CardView({ card }: { readonly card: Letter }) {
  const opening = card.sections.slice(0, 1)
  const middle = card.sections.slice(1, -1)
  const last = card.sections.slice(1).at(-1)
  return (
    <article class="card">
      <header>
        <p class="note">{card.title}</p>
        <h2>{card.headline}</h2>
      </header>
      {opening.map((section) => (
        <SectionView section={section} />
      ))}
      <div class="columns">
        {middle.map((section) => (
          <SectionView section={section} />
        ))}
      </div>
      {last === undefined ? null : <SectionView section={last} />}
      <footer class="note">
        {card.footer.map((line) => (
          <p>{line}</p>
        ))}
      </footer>
    </article>
  )
}

function SectionView({ section }: { readonly section: Section }) {
  return (
    <section class={section.heading === '' ? undefined : anchor(section.heading)}>
      {section.heading !== '' && <h3>{section.heading}</h3>}
      <Blocks blocks={section.blocks} drawing={() => undefined} />
    </section>
  )
}
