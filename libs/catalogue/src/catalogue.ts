// The catalogue in memory: parts in SI units beside what a buyer sees (name, maker, price), under one version.
import type { Airframe } from '@ductwright/models/airframe/airframe'
import type { TreatmentKind } from '@ductwright/models/drag/treatments'
import type { Esc } from '@ductwright/models/esc/esc'
import type { Fan } from '@ductwright/models/fan/fan'
import type { Motor } from '@ductwright/models/motor/motor'
import type { Pack } from '@ductwright/models/pack/pack'

/** What a buyer pays, in the catalogue's currency, and since when that is known. */
export interface Priced {
  readonly price: number
  /** Date of this price, YYYY-MM-DD; absent: the catalogue's. */
  readonly priced?: string
}

/** A part as listed: what the models need, and what the buyer needs. */
export interface Listed<Part> extends Priced {
  readonly part: Part
  readonly maker: string
  readonly name: string
}

/** A listed pack keeps the rating printed on its label, per hour, beside the believable one in `part`. */
export interface ListedPack extends Listed<Pack> {
  readonly labelRate: number
}

/** A listed airframe says where its design speed, or what its structure is made of, comes from. */
export interface ListedAirframe extends Listed<Airframe> {
  readonly material: 'foam' | 'composite' | 'carbon'
  readonly designSpeedBasis: string
}

/** A fan sold with its motor fitted: one price, one mass. It stands for the pair wherever the pair is weighed or priced. */
export interface PartSet extends Priced {
  readonly id: string
  readonly maker: string
  readonly name: string
  readonly fanId: string
  readonly motorId: string
  readonly mass: number
}

/** A drag treatment an owner can do or have done: one price, one mass and one time, whatever the size of the airframe. */
export interface ListedTreatment extends Priced {
  readonly kind: TreatmentKind
  readonly name: string
  /** Added to the airframe, kg. */
  readonly mass: number
  /** Working time, h. */
  readonly hours: number
}

/** A separate receiver supply, wanted when the speed controller has none. */
export interface ReceiverSupply {
  readonly id: string
  readonly name: string
  readonly price: number
  readonly mass: number
}

/** One immutable catalogue. Lists are sorted by id, treatments by kind; `version` is the SHA-256 of the canonical content, hex. */
export interface Catalogue {
  readonly name: string
  /** ISO 4217 code of every price in it. */
  readonly currency: string
  /** Date of every price that has none of its own, YYYY-MM-DD. */
  readonly dated: string
  readonly version: string
  readonly fans: readonly Listed<Fan>[]
  readonly motors: readonly Listed<Motor>[]
  readonly escs: readonly Listed<Esc>[]
  readonly packs: readonly ListedPack[]
  readonly airframes: readonly ListedAirframe[]
  readonly sets: readonly PartSet[]
  readonly treatments: readonly ListedTreatment[]
  readonly receiverSupply: ReceiverSupply
}
