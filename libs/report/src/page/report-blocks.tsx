// Each kind of block of a letter as HTML for a page of its own: lists and tables by their meaning, all look in the style
// sheet. A bar is drawn with attributes, since the page's policy allows no style on an element.
import type { Bar, Block, GridColumn, Pair, Picture, RankedRow, Tile } from '../letter.js'

const noBreak = '\u00a0'

/** A chart by its id: markup for a desk and for a telephone; undefined when it is not drawn. */
export type Drawing = (id: string) => { readonly wide: string; readonly narrow: string } | undefined

export function Blocks({ blocks, drawing }: { readonly blocks: readonly Block[]; readonly drawing: Drawing }) {
  return (
    <>
      {blocks.map((block) => (
        <BlockView block={block} drawing={drawing} />
      ))}
    </>
  )
}

function BlockView({ block, drawing }: { readonly block: Block; readonly drawing: Drawing }) {
  switch (block.kind) {
    case 'lead':
      return <h3>{block.text}</h3>
    case 'paragraph':
      return <p>{block.text}</p>
    case 'tiles':
      return <Tiles tiles={block.tiles} />
    case 'pairs':
      return <Pairs pairs={block.pairs} />
    case 'list':
      return <List items={block.items} />
    case 'bars':
      return <Bars bars={block.bars} />
    case 'picture':
      return <Figure picture={block.picture} drawing={drawing} />
    case 'grid':
      return <Grid columns={block.columns} rows={block.rows} />
    case 'ranked':
      return <Ranked columns={block.columns} rows={block.rows} />
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

function Tiles({ tiles }: { readonly tiles: readonly Tile[] }) {
  return (
    <ul class="tiles">
      {tiles.map((tile) => {
        const [number = '', ...unit] = tile.value.split(noBreak)
        return (
          <li>
            <strong>
              {number}
              <span class="unit">
                {noBreak}
                {unit.join(noBreak)}
              </span>
            </strong>
            <span class="note">{tile.label}</span>
          </li>
        )
      })}
    </ul>
  )
}

function Pairs({ pairs }: { readonly pairs: readonly Pair[] }) {
  return (
    <dl>
      {pairs.map((pair) => (
        <div>
          <dt>{pair.label}</dt>
          <dd>{pair.value}</dd>
        </div>
      ))}
    </dl>
  )
}

function Bars({ bars }: { readonly bars: readonly Bar[] }) {
  return (
    <ul class="bars">
      {bars.map((bar) => (
        <li>
          <span>{bar.label}</span>
          <span>{bar.shown}</span>
          <svg viewBox="0 0 100 2" preserveAspectRatio="none" aria-hidden="true">
            <rect class="rest" width="100" height="2" />
            <rect class={bar.strong ? 'fill' : 'part'} width={filled(bar.share)} height="2" />
          </svg>
        </li>
      ))}
    </ul>
  )
}

function filled(share: number): number {
  return Math.round(100 * Math.min(1, Math.max(0, share)))
}

function Figure({ picture, drawing }: { readonly picture: Picture; readonly drawing: Drawing }) {
  const drawn = drawing(picture.id)
  return (
    <figure data-chart={picture.id}>
      <figcaption>{picture.title}</figcaption>
      {drawn === undefined ? null : (
        <>
          <div class="wide" dangerouslySetInnerHTML={{ __html: drawn.wide }} />
          <div class="narrow" dangerouslySetInnerHTML={{ __html: drawn.narrow }} />
        </>
      )}
      <p class="note">{picture.alt}</p>
    </figure>
  )
}

function Heads({ columns }: { readonly columns: readonly GridColumn[] }) {
  return (
    <thead>
      <tr>
        {columns.map((column) => (
          <th class={column.align} scope="col">
            {column.title}
          </th>
        ))}
      </tr>
    </thead>
  )
}

function Cells({ cells, columns }: { readonly cells: readonly string[]; readonly columns: readonly GridColumn[] }) {
  return (
    <tr>
      {cells.map((cell, at) => (
        <td class={columns[at]?.align ?? 'left'}>{cell}</td>
      ))}
    </tr>
  )
}

interface GridParts {
  readonly columns: readonly GridColumn[]
  readonly rows: readonly (readonly string[])[]
}

function Grid({ columns, rows }: GridParts) {
  return (
    <div class="scroll">
      <table>
        <Heads columns={columns} />
        <tbody>
          {rows.map((row) => (
            <Cells cells={row} columns={columns} />
          ))}
        </tbody>
      </table>
    </div>
  )
}

function Ranked({ columns, rows }: { readonly columns: readonly GridColumn[]; readonly rows: readonly RankedRow[] }) {
  return (
    <div class="scroll">
      <table class="ranked">
        <Heads columns={columns} />
        {rows.map((row) => (
          <tbody>
            <Cells cells={row.cells} columns={columns} />
            <tr>
              <td class="below" colSpan={columns.length}>
                {row.below}
              </td>
            </tr>
          </tbody>
        ))}
      </table>
    </div>
  )
}
