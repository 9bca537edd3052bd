// Figures of an invented airframe: three anchors drawn around a 90 mm fan (foam sport, composite sport, carbon speed),
// scaled geometrically to other fan sizes. Finish moves the drag area from "as moulded" to "cleaned up".
// Assumed: every figure. A design speed, where one is stated, comes from flutter, divergence and aileron hinge moment
// estimates of the anchors, already divided by their factors; nobody has tested these airframes. What structure and drag
// are made of: structure-law.ts, drag-law.ts.
import type { airframeColumns } from '../rows/airframe-fields.js'
import { type AirframeSpec, type Row, slug } from './plan.js'
import { RandomStream } from './random.js'
import { toDigits, toPrice, toStep } from './rounding.js'

export type AirframeCells = Row<typeof airframeColumns>

interface Anchor {
  readonly drag: readonly [dirty: number, clean: number]
  readonly span: number
  readonly wingArea: number
  readonly liftMax: number
  /** With flaps, which only jets on wheels have. */
  readonly liftMaxFlaps: number
  readonly empty: number
  readonly takeOff: number
  readonly duct: { readonly loss: number; readonly inlet: number; readonly lip: number; readonly ram: number }
  readonly inletArea: number
  readonly bay: readonly [length: number, width: number, height: number]
  readonly designSpeed: number
  /** Where a stated design speed, and where the figures of the structure, come from. */
  readonly basis: string
  readonly structure: string
  readonly rootMoment: number
  readonly mountLoad: number
  readonly price: number
}

const ANCHORS: Readonly<Record<AirframeSpec['material'], Anchor>> = {
  foam: {
    drag: [0.009, 0.006],
    span: 1100,
    wingArea: 27,
    liftMax: 1,
    liftMaxFlaps: 1.3,
    empty: 1750,
    takeOff: 3400,
    duct: { loss: 0.2, inlet: 0.09, lip: 0.25, ram: 0.88 },
    inletArea: 52,
    bay: [300, 95, 75],
    designSpeed: 257,
    basis: 'aileron servo torque at 5 degrees, factor 2; wing flutter over 1.5 is 283 km/h; estimated stiffness',
    structure: 'stiffness estimated from foam core, painted skin and a bonded carbon tube; nobody has measured it',
    rootMoment: 48,
    mountLoad: 42,
    price: 240,
  },
  composite: {
    drag: [0.0052, 0.0045],
    span: 1100,
    wingArea: 26,
    liftMax: 1,
    liftMaxFlaps: 1.5,
    empty: 2350,
    takeOff: 5400,
    duct: { loss: 0.12, inlet: 0.06, lip: 0.12, ram: 0.94 },
    inletArea: 56,
    bay: [420, 110, 90],
    designSpeed: 439,
    basis: 'wing flutter over 1.5; aileron servo torque good to 447 km/h; estimated stiffness',
    structure: 'stiffness estimated from a glass skin less cut-outs, wells and joiner; nobody has measured it',
    rootMoment: 130,
    mountLoad: 130,
    price: 890,
  },
  carbon: {
    drag: [0.003, 0.0026],
    span: 950,
    wingArea: 17,
    liftMax: 1,
    liftMaxFlaps: 1.4,
    empty: 1900,
    takeOff: 4300,
    duct: { loss: 0.1, inlet: 0.05, lip: 0.15, ram: 0.96 },
    inletArea: 50,
    bay: [400, 95, 80],
    designSpeed: 554,
    basis: 'wing flutter over 1.5; aileron servo torque good to 568 km/h; estimated stiffness',
    structure: 'stiffness estimated from a carbon skin less cut-outs, wells and joiner; nobody has measured it',
    rootMoment: 220,
    mountLoad: 220,
    price: 1450,
  },
}

export function airframeCells(spec: AirframeSpec, seed: number, currency: string): AirframeCells {
  const random = new RandomStream(seed, `airframe ${spec.maker} ${spec.name} ${spec.size}`)
  const anchor = ANCHORS[spec.material]
  const x = spec.size / 90
  const near = (value: number) => random.around(value, spec.scatter)
  const [dirty, clean] = anchor.drag
  return {
    id: slug('airframe', spec.name),
    maker: spec.maker,
    name: spec.name,
    material: spec.material,
    drag_area_m2: stated(spec.drag !== 'built-up', toDigits(near((dirty + (clean - dirty) * spec.finish) * x * x), 3)),
    span_mm: toStep(near(anchor.span * x), 10),
    wing_area_dm2: toDigits(near(anchor.wingArea * x * x), 3),
    oswald_factor: stated(spec.drag !== 'built-up', 0.8),
    lift_coefficient_max: anchor.liftMax,
    lift_coefficient_max_flaps: stated(spec.launch === 'wheels', anchor.liftMaxFlaps),
    empty_mass_g: toStep(near(anchor.empty * x ** 2.5), 10),
    take_off_mass_limit_g: toStep(anchor.takeOff * x ** 2.3, 50),
    ...duct(spec, anchor),
    ...bay(anchor, x),
    design_speed_km_h: stated(spec.limits !== 'structure', Math.round(near(anchor.designSpeed))),
    design_speed_basis: basis(spec, anchor),
    root_moment_ultimate_nm: toDigits(near(anchor.rootMoment * x ** 3), 3),
    mount_load_n: Math.round(near(anchor.mountLoad * x * x)),
    launch: spec.launch,
    ...stations(spec, x),
    price: toPrice(spec.price * near(anchor.price * x ** 1.6)),
    currency,
  }
}

/** A figure, or an empty cell where the airframe does not state it. */
function stated(is: boolean, figure: number): number | '' {
  return is ? figure : ''
}

function basis(spec: AirframeSpec, anchor: Anchor): string {
  if (spec.limits === 'structure') return anchor.structure
  const class_ = spec.scatter === 0 ? '' : `as its ${spec.material} class: `
  return spec.limits === 'stated' ? `${class_}${anchor.basis}` : `stated by its maker; ${anchor.structure}`
}

/** The exit takes nozzle ratios from .78 behind the smallest fan to .97 behind the largest, at a hub of .475 of the tip. */
function duct(spec: AirframeSpec, anchor: Anchor) {
  const [smallest, largest] = spec.fanSizes
  const exit = (size: number, nozzleRatio: number) => size * Math.sqrt(nozzleRatio * (1 - 0.475 ** 2))
  return {
    fan_diameter_min_mm: smallest,
    fan_diameter_max_mm: largest,
    exit_diameter_min_mm: Math.floor(exit(smallest, 0.78)),
    exit_diameter_max_mm: Math.ceil(exit(largest, 0.97)),
    duct_loss: anchor.duct.loss,
    inlet_loss: anchor.duct.inlet,
    inlet_area_cm2: toDigits(anchor.inletArea * (Math.sqrt(smallest * largest) / 90) ** 2, 3),
    lip_loss: anchor.duct.lip,
    ram_recovery: anchor.duct.ram,
  }
}

function bay({ bay: [length, width, height] }: Anchor, x: number) {
  return {
    bay_length_mm: toStep(length * x ** 0.8, 5),
    bay_width_mm: toStep(width * x ** 0.8, 1),
    bay_height_mm: toStep(height * x ** 0.8, 1),
  }
}

/** Stations of a fuselage whose nose is 640 mm ahead of the centre of gravity at 90 mm; fan and fins weigh it down aft. */
function stations(spec: AirframeSpec, x: number) {
  const at = (millimetres: number) => Math.round(millimetres * x)
  return {
    centre_of_gravity_mm: at(640),
    empty_station_mm: at(spec.material === 'foam' ? 680 : 690),
    fan_station_mm: at(830),
    esc_station_mm: at(560),
    pack_station_min_mm: at(230),
    pack_station_max_mm: at(640),
    nose_ballast_station_mm: at(50),
    tail_ballast_station_mm: at(1230),
    ballast_limit_g: toStep(250 * x ** 2.5, 10),
  }
}
