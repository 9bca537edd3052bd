// What a catalogue is to hold, before any figure is worked out: families of parts with their character (quality, price
// level, sizes). The laws turn a plan into rows; `quality` and `price` move apart so good and bad buys both exist.

interface Family {
  readonly maker: string
  readonly name: string
  /** Price level: 1 is what the law asks. */
  readonly price: number
}

export interface FanFamily extends Family {
  readonly construction: 'plastic' | 'reinforced' | 'alloy' | 'billet'
  readonly pitch: 'coarse' | 'mid' | 'fine'
  readonly blades: number
  /** Added to the peak efficiency that the size gives, −0.03…+0.03. */
  readonly quality: number
  readonly sizes: readonly number[]
}

export interface MotorFamily extends Family {
  readonly polePairs: number
  /** Factor on the motor constant squared, 0.85…1.15. */
  readonly quality: number
  readonly timing_deg: number
  readonly windingLimit_c: number
  /** Grade of the magnets, which says how hot they may get. */
  readonly magnets: 'M' | 'H' | 'SH'
  /** Can diameter over the usual one of the fan size, mm: 1 for a fat can that needs a roomy fan (80 mm and up). */
  readonly canStep: -1 | 0 | 1
  /** Can length over diameter, 1.3…2.0. */
  readonly slenderness: number
  readonly motors: readonly { readonly size: number; readonly cells: number; readonly wind: number }[]
}

export interface EscFamily extends Family {
  readonly cells: readonly [number, number]
  /** Factor on the path resistance; below 1 is better. */
  readonly resistance: number
  readonly freewheel: 'diode' | 'synchronous'
  /** Rise plus fall time of an edge pair, ns. */
  readonly edges_ns: number
  readonly frequency_khz: number
  readonly electricalLimit_rpm: number
  readonly timings_deg: readonly number[]
  /** Built-in receiver supply, A; 0: none. */
  readonly supply_a: number
  readonly labels: readonly number[]
}

export interface PackFamily extends Family {
  /** Resistance times capacity of a cell, Ω·Ah. */
  readonly k: number
  /** Label rating over the believable one. */
  readonly boast: number
  readonly packs: readonly { readonly cells: number; readonly capacity_mah: number }[]
}

export interface AirframeSpec extends Family {
  readonly material: 'foam' | 'composite' | 'carbon'
  /** Fan size the airframe is drawn around, mm. */
  readonly size: number
  readonly fanSizes: readonly [number, number]
  /** 0: as it comes from the mould; 1: gaps sealed, edges sharpened, doors faired. */
  readonly finish: number
  readonly launch: 'wheels' | 'bungee'
  /** What says how fast it may fly: a speed stated by its maker, its structure, or both. */
  readonly limits: 'stated' | 'structure' | 'both'
  /** What says its drag: a stated drag area, one with what it is made of, or that alone. */
  readonly drag: 'stated' | 'itemised' | 'built-up'
  /** Share by which the figures may scatter about the law. */
  readonly scatter: number
}

export interface CataloguePlan {
  readonly seed: number
  readonly name: string
  readonly currency: string
  readonly dated: string
  readonly fans: readonly FanFamily[]
  readonly motors: readonly MotorFamily[]
  readonly escs: readonly EscFamily[]
  readonly packs: readonly PackFamily[]
  readonly airframes: readonly AirframeSpec[]
  /** Sets wanted; fewer when not so many fans have a fitting motor. */
  readonly sets: number
}

/** A row as it goes into a table; invented prices have no date of their own. */
export type Row<Columns> = { readonly [Column in Exclude<keyof Columns, 'priced'>]: string | number }

/** Lower-case words joined by hyphens. */
export function slug(...words: readonly (string | number)[]): string {
  return words
    .join(' ')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
}
