// The blocks of a letter one after the other as HTML, each kind by the view that the medium has for it: what mail and page
// have in common. What is plain text in both is laid out here.
import type { JSX } from 'preact'
import type { Bar, Block, GridColumn, Pair, Picture, RankedRow, Tile } from './letter.js'

const noBreak = '\u00a0'

/** How a medium lays out the kinds of blocks that differ between media. */
export interface BlockViews {
  lead(text: string): JSX.Element
  tiles(tiles: readonly Tile[]): JSX.Element
  pairs(pairs: readonly Pair[]): JSX.Element
  bars(bars: readonly Bar[]): JSX.Element
  picture(picture: Picture): JSX.Element
  grid(grid: Columned<readonly string[]>): JSX.Element
  ranked(list: Columned<RankedRow>): JSX.Element
}

/** Rows below the heads of their columns. */
export interface Columned<Row> {
  readonly columns: readonly GridColumn[]
  readonly rows: readonly Row[]
}

export function BlockList({ blocks, views }: { readonly blocks: readonly Block[]; readonly views: BlockViews }) {
  return <>{blocks.map((block) => viewOf(block, views))}</>
}

function viewOf(block: Block, views: BlockViews): JSX.Element {
  switch (block.kind) {
    case 'lead':
      return views.lead(block.text)
    case 'paragraph':
      return <p>{block.text}</p>
    case 'tiles':
      return views.tiles(block.tiles)
    case 'pairs':
      return views.pairs(block.pairs)
    case 'list':
      return <List items={block.items} />
    case 'bars':
      return views.bars(block.bars)
    case 'picture':
      return views.picture(block.picture)
    case 'grid':
      return views.grid(block)
    case 'ranked':
      return views.ranked(block)
  }
}

function List({ items }: { readonly items: readonly string[] }) {
  return (
    <ul>
      {items.map((item) => (
        <li>{item}</li>
      ))}
    </ul>
  )
}

/** A number with its unit set apart from it. */
export function BigNumber({ value }: { readonly value: string }) {
  const [number = '', ...unit] = value.split(noBreak)
  return (
    <>
      {number}
      <span class="unit">
        {noBreak}
        {unit.join(noBreak)}
      </span>
    </>
  )
}

/** How much of a bar is filled, in whole per cent. */
export function filledOf(share: number): number {
  return Math.round(100 * Math.min(1, Math.max(0, share)))
}
