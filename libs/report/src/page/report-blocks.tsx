// The blocks of a letter as HTML for a page of its own: lists and tables by their meaning, all look in the style
// sheet. A bar is drawn with attributes, since the page's policy allows no style on an element.
import { BigNumber, BlockList, type BlockViews, type Columned, filledOf } from '../block-views.js'
import type { Bar, Block, GridColumn, Pair, Picture, RankedRow, Tile } from '../letter.js'

/** A chart by its id: markup for a desk and for a telephone; undefined when it is not drawn. */
export type Drawing = (id: string) => { readonly wide: string; readonly narrow: string } | undefined

export function Blocks({ blocks, drawing }: { readonly blocks: readonly Block[]; readonly drawing: Drawing }) {
  const views: BlockViews = {
    lead: (text) => <h3>{text}</h3>,
    tiles: (tiles) => <Tiles tiles={tiles} />,
    pairs: (pairs) => <Pairs pairs={pairs} />,
    bars: (bars) => <Bars bars={bars} />,
    picture: (picture) => <Figure picture={picture} drawing={drawing} />,
    grid: ({ columns, rows }) => <Grid columns={columns} rows={rows} />,
    ranked: ({ columns, rows }) => <Ranked columns={columns} rows={rows} />,
  }
  return <BlockList blocks={blocks} views={views} />
}

function Tiles({ tiles }: { readonly tiles: readonly Tile[] }) {
  return (
    <ul class="tiles">
      {tiles.map((tile) => (
        <li>
          <strong>
            <BigNumber value={tile.value} />
          </strong>
          <span class="note">{tile.label}</span>
        </li>
      ))}
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
            <rect class={bar.strong ? 'fill' : 'part'} width={filledOf(bar.share)} height="2" />
          </svg>
        </li>
      ))}
    </ul>
  )
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

function Grid({ columns, rows }: Columned<readonly string[]>) {
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

function Ranked({ columns, rows }: Columned<RankedRow>) {
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
