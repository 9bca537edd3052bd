// The airframe and the air of an answer, in plain units: where drag and highest speed come from, and what work was done.
import type { ListedTreatment } from '@ductwright/catalogue/catalogue'
import type { SweepRequest } from '@ductwright/contract/request'
import type { AirFigures, AirframeFigures } from '@ductwright/contract/result'
import { type DragTermName, dragTerms } from '@ductwright/models/drag/build-up'
import { treatedGeometry } from '@ductwright/models/drag/treatments'
import { speedLimits } from '@ductwright/models/structure/speed-limits'
import type { Circumstances } from '@ductwright/models/sweep/problem'
import type { AirframeChoice } from './airframe-choice.js'
import { plain } from './figures-of.js'
import { CRITERION_WORDS } from './limit-words.js'

const DRAG_TERM_WORDS: Readonly<Record<DragTermName, string>> = {
  'wing-friction': 'skin friction of the wing',
  'tail-friction': 'skin friction of the tail',
  'body-friction': 'skin friction of the fuselage',
  'trailing-edges': 'blunt trailing edges',
  'control-gaps': 'gaps at control surfaces',
  horns: 'horns and linkages',
  gear: 'undercarriage',
  'door-edges': 'door edges and wells',
  'flat-faces': 'flat faces that look aft',
  cooling: 'cooling air',
  spillage: 'air spilled by the inlet',
}

export function treatmentFigures(treatment: ListedTreatment) {
  const { kind, name, price, hours, mass } = treatment
  return { kind, words: name, price, hours, mass_g: plain(mass * 1000) }
}

export function airframeFigures(chosen: AirframeChoice, circumstances: Circumstances): AirframeFigures {
  const { airframe, referenceSpeed, treatments } = chosen
  const { dragGeometry } = airframe
  const kinds = treatments.map(({ kind }) => kind)
  const terms =
    dragGeometry === null ? [] : dragTerms(treatedGeometry(dragGeometry, kinds), referenceSpeed, circumstances)
  return {
    id: chosen.id,
    name: chosen.name,
    drag_area_m2: plain(airframe.dragArea),
    drag_basis: airframe.dragBasis,
    drag_terms: terms.map(({ term, area }) => ({ term, words: DRAG_TERM_WORDS[term], area_m2: plain(area) })),
    treatments: treatments.map(treatmentFigures),
    speed_limits: speedLimits(airframe, circumstances).map(({ criterion, speed }) => ({
      criterion,
      words: CRITERION_WORDS[criterion],
      speed_km_h: plain(speed * 3.6),
    })),
  }
}

export function airFigures(field: SweepRequest['field'], circumstances: Circumstances): AirFigures {
  return {
    elevation_m: plain(field.elevation),
    temperature_c: plain(field.temperature - 273.15),
    pressure_hpa: plain(circumstances.pressure / 100),
    density_kg_m3: plain(circumstances.density),
    sound_speed_m_s: plain(circumstances.soundSpeed),
    viscosity_upa_s: plain(circumstances.viscosity * 1e6),
  }
}
