// The answer as a letter before it takes a medium: sections of blocks whose strings are final, numbers and units
// included. Plain text and HTML lay out the same letter, so they cannot tell different numbers.

export interface Tile {
  readonly value: string
  readonly label: string
}

export interface Pair {
  readonly label: string
  readonly value: string
}

/** A share of a limit: drawn as a bar where the medium can, always written out. */
export interface Bar {
  readonly label: string
  readonly share: number
  readonly shown: string
  /** The one of its group to look at. */
  readonly strong: boolean
}

export interface GridColumn {
  readonly title: string
  readonly align: 'left' | 'right'
}

/** A chart; `alt` carries its numbers, so that nothing is lost where pictures are not shown. */
export interface Picture {
  readonly id: string
  readonly title: string
  readonly alt: string
}

/** One ranked purchase: figures in columns, parts and settings on a line of their own. */
export interface RankedRow {
  readonly cells: readonly string[]
  readonly below: string
}

export type Block =
  | { readonly kind: 'lead'; readonly text: string }
  | { readonly kind: 'tiles'; readonly tiles: readonly Tile[] }
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'pairs'; readonly pairs: readonly Pair[] }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | { readonly kind: 'bars'; readonly bars: readonly Bar[] }
  | { readonly kind: 'picture'; readonly picture: Picture }
  | { readonly kind: 'grid'; readonly columns: readonly GridColumn[]; readonly rows: readonly (readonly string[])[] }
  | { readonly kind: 'ranked'; readonly columns: readonly GridColumn[]; readonly rows: readonly RankedRow[] }

export interface Section {
  /** Empty for the opening section, which is headed by the letter's headline. */
  readonly heading: string
  readonly blocks: readonly Block[]
}

export interface Letter {
  readonly title: string
  readonly headline: string
  readonly sections: readonly Section[]
  readonly footer: readonly string[]
}
