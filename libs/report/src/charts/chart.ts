// One figure: its heading, a caption with the key numbers in plain words, and one or more panels. A panel can be drawn into
// any frame and says in words what it shows.
import type { TopLevelSpec } from 'vega-lite'
import type { Frame } from './theme.js'

export interface Panel {
  /** Named above the picture when a figure has several. */
  readonly heading: string
  readonly alt: string
  draw(frame: Frame): TopLevelSpec
}

export interface Chart {
  readonly heading: string
  readonly caption: readonly string[]
  readonly panels: readonly Panel[]
}
