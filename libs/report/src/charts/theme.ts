// The look of every chart: one typeface stack, neutral greys on paper, one accent for what is being asked about. Lines are
// told apart by dash and weight, marks by shape and fill as well, so they survive colour blindness and a black-and-white
// printer. Each chart is laid out twice, for a page and for a telephone, so that text is never scaled below its size.
import { columns } from '@ductwright/contract/inert'

export const FONT = "-apple-system, 'Segoe UI', Roboto, Helvetica, Arial, sans-serif"
/** Text size, px. */
export const TEXT_SIZE = 13
/** From one line of text to the next, px. */
export const LINE_HEIGHT = 16

/** Width of a text, px; about, since nothing here knows the typeface that will be used. */
export function textWidth(text: string, bold = false): number {
  return (bold ? 0.58 : 0.53) * TEXT_SIZE * columns(text)
}

/** Colours by role, on paper and in the dark. */
export const COLOURS = {
  paper: { light: '#fffdf8', dark: '#191c1f' },
  ink: { light: '#20242a', dark: '#ece8df' },
  muted: { light: '#676b72', dark: '#a9aaa5' },
  line: { light: '#84827b', dark: '#8f918d' },
  faint: { light: '#b9b5aa', dark: '#5d615f' },
  grid: { light: '#ebe7dd', dark: '#2c3034' },
  band: { light: '#f1ede3', dark: '#24282b' },
  accent: { light: '#b5431a', dark: '#ff9566' },
  // The accent from nearly nothing to its full depth, for a quantity that is shown by shade.
  shade1: { light: '#fdf0e9', dark: '#2b211c' },
  shade2: { light: '#edb699', dark: '#6b402b' },
  shade3: { light: '#cd6a3c', dark: '#b8683f' },
  shade4: { light: '#7c2a0c', dark: '#ffb892' },
} as const

export type Role = keyof typeof COLOURS

/** From light to dark on paper. */
export const SHADES = ['shade1', 'shade2', 'shade3', 'shade4'] as const satisfies readonly Role[]

export function colour(role: Role): string {
  return COLOURS[role].light
}

const roles = Object.keys(COLOURS) as Role[]

/** Rules of a style sheet that exchange the colours of charts within a page for the ones of the dark. */
export const DARK_SWAPS = roles
  .flatMap((role) =>
    ['fill', 'stroke'].map((paint) => `svg [${paint}="${COLOURS[role].light}"]{${paint}:${COLOURS[role].dark}}`),
  )
  .join('')

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
  /** What is wanted, across a whole chart. */
  wanted: { colour: 'ink', width: 1.25, dash: [8, 3, 2, 3] },
  /** One of many. */
  crowd: { colour: 'faint', width: 1, dash: [] },
  /** From a name to what it names. */
  leader: { colour: 'line', width: 0.75, dash: [] },
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

export const WIDE: Frame = { narrow: false, width: 600, height: 360, left: 58, right: 16, top: 46, bottom: 46 }
export const NARROW: Frame = { narrow: true, width: 320, height: 310, left: 48, right: 16, top: 46, bottom: 44 }

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
