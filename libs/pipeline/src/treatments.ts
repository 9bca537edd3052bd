// Clean-up work on an airframe: what a request switches on, what it costs, weighs and takes, and the airframe it leaves.
import type { Catalogue, ListedTreatment } from '@ductwright/catalogue/catalogue'
import { type Fault, shown } from '@ductwright/contract/fault'
import type { Airframe } from '@ductwright/models/airframe/airframe'
import type { FrictionAir } from '@ductwright/models/drag/build-up'
import { TREATMENTS, type TreatmentKind, treatedDragArea, treatedGeometry } from '@ductwright/models/drag/treatments'

/** The catalogue's entries of some kinds of work, in canonical order. */
export function listedTreatments(kinds: readonly TreatmentKind[], catalogue: Catalogue): readonly ListedTreatment[] {
  return TREATMENTS.filter((kind) => kinds.includes(kind)).flatMap(
    (kind) => catalogue.treatments.find((treatment) => treatment.kind === kind) ?? [],
  )
}

/** What of the catalogue's work an airframe can still get. */
export function openTreatments(
  airframe: Airframe,
  done: readonly TreatmentKind[],
  catalogue: Catalogue,
): readonly ListedTreatment[] {
  if (airframe.dragGeometry === null) return []
  return listedTreatments(
    TREATMENTS.filter((kind) => !done.includes(kind)),
    catalogue,
  )
}

/** Faults of work that the catalogue does not list, or that needs drag terms which the airframe does not have. */
export function treatmentFaults(kinds: readonly TreatmentKind[], airframe: Airframe, catalogue: Catalogue): Fault[] {
  return kinds.flatMap((kind, i): Fault[] => {
    const at = { pointer: `/treatments/${i}`, value: shown(kind) }
    if (!catalogue.treatments.some((treatment) => treatment.kind === kind)) {
      return [{ ...at, rule: 'unknown-part', message: `${shown(kind)} is no work that this catalogue lists` }]
    }
    if (airframe.dragGeometry === null) {
      const message = `${shown(kind)} cannot be worked out: nothing is known of what the drag of ${airframe.id} is made of`
      return [{ ...at, rule: 'drag-terms', message }]
    }
    return []
  })
}

/**
 * The airframe after clean-up work. `geometry` stays that before any work, since what the work does is a share of that.
 * @param speed at which friction is taken, m/s
 */
export function treatedAirframe(
  airframe: Airframe,
  treatments: readonly Pick<ListedTreatment, 'kind' | 'mass'>[],
  speed: number,
  air: FrictionAir,
): Airframe {
  const { dragGeometry: geometry, dragArea, emptyMass } = airframe
  if (geometry === null || treatments.length === 0) return airframe
  const treated = treatedGeometry(
    geometry,
    treatments.map(({ kind }) => kind),
  )
  return {
    ...airframe,
    dragArea: treatedDragArea(dragArea, geometry, treated, speed, air),
    emptyMass: emptyMass + treatments.reduce((sum, { mass }) => sum + mass, 0),
  }
}
