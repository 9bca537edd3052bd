// The blocks of the letter as mail HTML: tables for what stands in columns, since mail readers know little else.
import { BigNumber, BlockList, type BlockViews, type Columned, filledOf } from './block-views.js'
import type { Bar, Block, GridColumn, Pair, Picture, RankedRow, Tile } from './letter.js'

// A value this short stays beside its label on a narrow screen.
const shortValue = 14
// Once a row instead of once a cell keeps a long letter short; the types know the attribute on cells only.
const fromTop = { valign: 'top' } as const
/** Room in every cell, said once a table for the same reason. */
const roomy = { cellPadding: '6', cellSpacing: '0' } as const

/** Where the picture of a chart is found. */
export type PictureAddress = (id: string) => string

export function Blocks({ blocks, address }: { readonly blocks: readonly Block[]; readonly address: PictureAddress }) {
  const views: BlockViews = {
    lead: (text) => <h3 class="lead">{text}</h3>,
    tiles: (tiles) => <Tiles tiles={tiles} />,
    pairs: (pairs) => <Pairs pairs={pairs} />,
    bars: (bars) => <Bars bars={bars} />,
    picture: (picture) => <PictureView picture={picture} address={address} />,
    grid: ({ columns, rows }) => <Grid columns={columns} rows={rows} />,
    ranked: ({ columns, rows }) => <Ranked columns={columns} rows={rows} />,
  }
  return <BlockList blocks={blocks} views={views} />
}

// Drawn for a telephone, where they have to be read; a desk shows them somewhat larger. No height, so that the words alone
// take no more room than theirs.
const pictureWidth = 400

function PictureView({ picture, address }: { readonly picture: Picture; readonly address: PictureAddress }) {
  return (
    <>
      <p class="pt">{picture.title}</p>
      <img class="pic" src={address(picture.id)} width={pictureWidth} alt={picture.alt} />
    </>
  )
}

function Tiles({ tiles }: { readonly tiles: readonly Tile[] }) {
  return (
    <table class="wide ts" role="presentation">
      <tr>
        {tiles.map((tile) => (
          <td class="tile t4">
            <div class="big">
              <BigNumber value={tile.value} />
            </div>
            <div class="note">{tile.label}</div>
          </td>
        ))}
      </tr>
    </table>
  )
}

function Pairs({ pairs }: { readonly pairs: readonly Pair[] }) {
  return (
    <table class="wide ps" role="presentation" {...roomy}>
      {pairs.map((pair, at) => (
        <tr {...fromTop} class={pair.value.length <= shortValue ? 'sh' : undefined}>
          <td class="k" width={at === 0 ? '31%' : undefined}>
            {pair.label}
          </td>
          <td class="v">{pair.value}</td>
        </tr>
      ))}
    </table>
  )
}

function Bars({ bars }: { readonly bars: readonly Bar[] }) {
  return (
    <table class="wide" role="presentation">
      {bars.map((bar) => (
        <>
          <tr>
            <td class="bl">{bar.label}</td>
            <td class="bs" align="right">
              {bar.shown}
            </td>
          </tr>
          <tr>
            <td colSpan={2}>
              <Fill share={bar.share} strong={bar.strong} />
            </td>
          </tr>
        </>
      ))}
    </table>
  )
}

function Fill({ share, strong }: { readonly share: number; readonly strong: boolean }) {
  const filled = filledOf(share)
  return (
    <table width="100%" role="presentation" cellPadding="0" cellSpacing="0">
      <tr>
        {filled > 0 && <td class={strong ? 'fill' : 'part'} width={`${filled}%`} />}
        {filled < 100 && <td class="rest" />}
      </tr>
    </table>
  )
}

/** The first column has nothing to keep clear of. */
const edge = (at: number, kind: string) => (at === 0 ? `${kind}0` : kind)

function Heads({ columns }: { readonly columns: readonly GridColumn[] }) {
  return (
    <tr>
      {columns.map((column, at) => (
        <th class={edge(at, 'h')} align={column.align} scope="col">
          {column.title}
        </th>
      ))}
    </tr>
  )
}

function Cells({ cells, columns }: { readonly cells: readonly string[]; readonly columns: readonly GridColumn[] }) {
  return (
    <tr {...fromTop}>
      {cells.map((cell, at) => (
        <td class={edge(at, 'c')} align={columns[at]?.align ?? 'left'}>
          {cell}
        </td>
      ))}
    </tr>
  )
}

function Grid({ columns, rows }: Columned<readonly string[]>) {
  return (
    <table class="wide" {...roomy}>
      <Heads columns={columns} />
      {rows.map((row) => (
        <Cells cells={row} columns={columns} />
      ))}
    </table>
  )
}

function Ranked({ columns, rows }: Columned<RankedRow>) {
  return (
    <table class="wide" {...roomy}>
      <Heads columns={columns} />
      {rows.map((row) => (
        <>
          <Cells cells={row.cells} columns={columns} />
          <tr>
            <td class="row" colSpan={columns.length}>
              {row.below}
            </td>
          </tr>
        </>
      ))}
    </table>
  )
}
