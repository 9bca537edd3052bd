// The look of every chart: one typeface stack, neutral greys on paper, one accent for what is being asked about. Lines are
// told apart by dash and weight as well, so they survive colour blindness and a black-and-white printer. Each chart is laid
// out twice, for a page and for a telephone, so that text is never scaled below its size.

export const FONT = "-apple-system, 'Segoe UI', Roboto, Helvetica, Arial, sans-serif"
/** Text size, px. */
export const TEXT_SIZE = 13

/** Width of a text, px; about, since nothing here knows the typeface that will be used. */
export function textWidth(text: string): number {
  return 0.55 * TEXT_SIZE * text.length
}

/** Colours by role, on paper and in the dark. */
export const COLOURS = {
  paper: { light: '#fffdf8', dark: '#191c1f' },
  ink: { light: '#20242a', dark: '#ece8df' },
  muted: { light: '#676b72', dark: '#a9aaa5' },
  line: { light: '#84827b', dark: '#8f918d' },
  grid: { light: '#ebe7dd', dark: '#2c3034' },
  band: { light: '#f1ede3', dark: '#24282b' },
  accent: { light: '#b5431a', dark: '#ff9566' },
} as const

export type Role = keyof typeof COLOURS

export function colour(role: Role): string {
  return COLOURS[role].light
}

export interface LineStyle {
  readonly colour: Role
  readonly width: number
  readonly dash: readonly number[]
}

export const LINES = {
  /** What the chart is about. */
  main: { colour: 'accent', width: 2.5, dash: [] },
  /** What it is set against. */
  against: { colour: 'ink', width: 1.75, dash: [] },
  /** The same thing in another state. */
  other: { colour: 'line', width: 1.75, dash: [7, 4] },
  /** A limit. */
  limit: { colour: 'ink', width: 1.25, dash: [3, 3] },
  /** A mark at one speed. */
  mark: { colour: 'line', width: 1, dash: [2, 3] },
} as const satisfies Record<string, LineStyle>

/** Lines of one family, told apart by their dash. */
export const FAMILY_DASHES: readonly (readonly number[])[] = [[], [9, 3], [5, 3], [2, 2], [9, 3, 2, 3], [12, 2], [1, 3]]

/** Outer size of a chart and the room around its plotting area, px. */
export interface Frame {
  readonly narrow: boolean
  readonly width: number
  readonly height: number
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

export const WIDE: Frame = { narrow: false, width: 640, height: 380, left: 58, right: 16, top: 46, bottom: 46 }
export const NARROW: Frame = { narrow: true, width: 296, height: 300, left: 48, right: 16, top: 46, bottom: 44 }

/** Settings of the drawing library that every chart shares. */
export const CHART_CONFIG = {
  aria: false,
  background: 'transparent',
  font: FONT,
  view: { stroke: null },
  axis: {
    domainColor: colour('line'),
    gridColor: colour('grid'),
    tickColor: colour('line'),
    tickSize: 4,
    labelColor: colour('muted'),
    labelFontSize: TEXT_SIZE,
    labelPadding: 4,
    titleColor: colour('ink'),
    titleFontSize: TEXT_SIZE,
    titleFontWeight: 'normal',
    titleBaseline: 'middle',
  },
} as const
