// What an owner can do about drag on the bench, as changes of the geometry: each touches its own quantities and no other.
// How far each goes is assumed: careful hobby work, not a new airframe. No treatment ever raises the drag area, at any
// speed, and each counts once, in whatever order they are named.
// Common practice, no source: on one foam jet near 300 km/h sealed gaps, sharp trailing edges and no flat edges gained
// about 60 km/h at the power it had, where more power had gained nothing.
import { builtUpDragArea, type FrictionAir } from './build-up.js'
import type { DragGeometry } from './drag-geometry.js'

export const TREATMENTS = [
  'seal-gaps',
  'sharpen-trailing-edges',
  'close-wheel-doors',
  'hide-horns',
  'fair-edges',
  'polish',
] as const
export type TreatmentKind = (typeof TREATMENTS)[number]

/** Assumed: share of the area cut by gaps that stays unsealed. */
const UNSEALED = 0.1
/** Assumed: what can be sanded to and still survives handling, m. */
const SHARP_EDGE = 0.0003
/** Assumed: share of the gear that still stands in the stream behind closed doors. */
const EXPOSED_BEHIND_DOORS = 0.05
/** Assumed: gear of which more than this share is in the stream does not retract, and has no doors to close. */
const FIXED_GEAR = 0.5
/** Assumed: frontal area of door edges that is left when they close flush. */
const FLUSH_DOORS = 0.2
/** Assumed: frontal area of horns and linkages left when they move inside or behind a fairing. */
const HIDDEN_HORNS = 0.1
/** Assumed: flat area that is left after rounding off. */
const FAIRED = 0.35
/** Assumed: friction of filled, sanded and polished skin over that of a smooth plate. */
const POLISHED = 1.03
/** Assumed: roughness above a polished skin that costs the full laminar gain, the gain, and the longest run it yields. */
const TRIPPING_ROUGHNESS = 0.2
const LAMINAR_GAIN = 0.1
const LONGEST_LAMINAR_RUN = 0.6
/** Assumed: a clean-up never takes more than four fifths of a known drag area. */
const LEAST_LEFT = 0.2

const CHANGES: Readonly<Record<TreatmentKind, (geometry: DragGeometry) => DragGeometry>> = {
  'seal-gaps': (geometry) => ({
    ...geometry,
    gaps: { ...geometry.gaps, affectedArea: UNSEALED * geometry.gaps.affectedArea },
  }),
  'sharpen-trailing-edges': (geometry) => ({
    ...geometry,
    trailingEdges: {
      ...geometry.trailingEdges,
      thickness: Math.min(SHARP_EDGE, geometry.trailingEdges.thickness),
    },
  }),
  'close-wheel-doors': withClosedDoors,
  'hide-horns': (geometry) => ({ ...geometry, horns: HIDDEN_HORNS * geometry.horns }),
  'fair-edges': (geometry) => ({ ...geometry, flatFaces: FAIRED * geometry.flatFaces }),
  polish: polished,
}

/**
 * The geometry after treatments, each counted once. Give the geometry before any of them: the shares are of that.
 * @throws RangeError for a treatment that does not exist
 */
export function treatedGeometry(geometry: DragGeometry, kinds: readonly TreatmentKind[]): DragGeometry {
  const unknown = kinds.find((kind) => !TREATMENTS.includes(kind))
  if (unknown !== undefined) throw new RangeError(`treatment must be one of ${TREATMENTS.join(', ')}, got ${unknown}`)
  return TREATMENTS.filter((kind) => kinds.includes(kind)).reduce((done, kind) => CHANGES[kind](done), geometry)
}

/**
 * Drag area of a treated airframe whose area before is known, m²: known − (S − S′), S and S′ built up before and after.
 * What the build-up does not explain of the known area stays as it is. When the build-up exceeds the known area, all of
 * its terms are taken as too large alike and the reduction shrinks by known/S. Never below a fifth of the known area.
 * @param known measured or stated drag area without induced drag, m², above 0
 * @throws RangeError for a known area that is not, and as the build-up does
 */
export function treatedDragArea(
  known: number,
  geometry: DragGeometry,
  treated: DragGeometry,
  speed: number,
  air: FrictionAir,
): number {
  if (!(known > 0 && known < Infinity)) throw new RangeError(`known must be above 0 m² and finite, got ${known}`)
  const before = builtUpDragArea(geometry, speed, air)
  const reduction = before - builtUpDragArea(treated, speed, air)
  return Math.max(LEAST_LEFT * known, known - reduction * Math.min(1, known / before))
}

function withClosedDoors(geometry: DragGeometry): DragGeometry {
  const { gear, doorEdges } = geometry
  if (gear.exposed > FIXED_GEAR) return geometry
  return {
    ...geometry,
    gear: { ...gear, exposed: Math.min(EXPOSED_BEHIND_DOORS, gear.exposed) },
    doorEdges: FLUSH_DOORS * doorEdges,
  }
}

// The rougher the skin was, the earlier it tripped the flow, so the laminar gain goes with the roughness removed.
function polished(geometry: DragGeometry): DragGeometry {
  const { wing, tail, body, roughness } = geometry
  const removed = Math.max(0, roughness - POLISHED)
  const gain = LAMINAR_GAIN * Math.min(1, removed / TRIPPING_ROUGHNESS)
  const longer = (share: number) => Math.max(share, Math.min(LONGEST_LAMINAR_RUN, share + gain))
  return {
    ...geometry,
    roughness: roughness - removed,
    wing: { ...wing, laminarShare: longer(wing.laminarShare) },
    tail: { ...tail, laminarShare: longer(tail.laminarShare) },
    body: { ...body, laminarShare: longer(body.laminarShare) },
  }
}
