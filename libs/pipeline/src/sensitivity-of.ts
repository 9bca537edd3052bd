// What top speed responds to, in plain units, what each piece of clean-up work would buy, and the first move that follows.
import type { ListedTreatment } from '@ductwright/catalogue/catalogue'
import { figure, money } from '@ductwright/contract/figures'
import type { Sensitivity, TreatmentGain } from '@ductwright/contract/result'
import type { SetupDetail } from '@ductwright/models/evaluation/setup-detail'
import { treatmentFigures } from './airframe-figures.js'
import { plain } from './figures-of.js'
import { listed, lower } from './sentences.js'
import type { WorkGains } from './work-gain.js'

const KMH = 3.6
/** Gains under this are not worth naming, km/h. */
const WORTH_NAMING = 0.5

/** Speeds that work still to be done would bring, against the setup as it is. */
interface TreatmentGains {
  readonly treatments: readonly TreatmentGain[]
  readonly all: number | null
}

export function sensitivityOf(
  detail: SetupDetail,
  open: readonly ListedTreatment[],
  found: WorkGains,
  currency: string,
): Sensitivity {
  const { response } = detail
  const { parasite, density } = detail.level
  const dragArea = (2 * parasite) / density
  const speed = detail.top.speed * KMH
  const gains = treatmentGains(open, found)
  const perHundredWatts = 100 * KMH * response.perWatt
  return {
    km_h_per_100_w: plain(perHundredWatts),
    km_h_per_10_cm2_less: plain((-response.dragArea * speed * 1e-3) / dragArea),
    km_h_per_100_g_less: plain((-response.mass * speed * 0.1) / detail.mass),
    km_h_per_nozzle_point_less: plain(-response.perNozzleRatio * 0.01 * KMH),
    km_h_per_m_s_efflux: plain(response.perEfflux * KMH),
    km_h_per_mohm_less: plain(-response.perOhm * 1e-3 * KMH),
    treatments: gains.treatments,
    all_treatments_km_h: gains.all,
    first_move: firstMove(perHundredWatts, -0.1 * response.dragArea * speed, gains, currency),
  }
}

/** Each piece of work alone, the one that buys most first, and all of it together. */
function treatmentGains(open: readonly ListedTreatment[], { alone, together }: WorkGains): TreatmentGains {
  const all = together.at(-1)
  const treatments = open
    .map((treatment, i): TreatmentGain => {
      const { gain, cut } = alone[i] as WorkGains['alone'][number]
      return { ...treatmentFigures(treatment), gain_km_h: plain(gain * KMH), drag_area_cut_m2: plain(cut) }
    })
    .sort((a, b) => b.gain_km_h - a.gain_km_h)
  return { treatments, all: all === undefined ? null : plain(all * KMH) }
}

/** "Power buys 0.9 km/h per 100 W here; the clean-up that buys most is to seal the gaps: 3 km/h for 20 EUR and 4 h of work." */
export function firstMove(
  perHundredWatts: number,
  perTenthOfDrag: number,
  gains: TreatmentGains,
  currency: string,
): string {
  const power = `Power buys ${figure('fineSpeed', perHundredWatts)} per 100 W here`
  const worthwhile = gains.treatments.filter(({ gain_km_h: gain }) => gain >= WORTH_NAMING)
  const [best] = worthwhile
  if (best === undefined) {
    const left =
      gains.all === null ? 'a tenth less drag area' : 'no clean-up work is left that buys much; a tenth less drag area'
    return `${power}; ${left} would buy ${figure('fineSpeed', perTenthOfDrag)}.`
  }
  const cost = best.price > 0 ? `${money(best.price, currency)} and ` : ''
  const price = `${cost}${figure('hours', best.hours)} of work`
  const one = `the clean-up that buys most is to ${lower(best.words)}: ${figure('fineSpeed', best.gain_km_h)} for ${price}`
  if (worthwhile.length === 1 || gains.all === null) return `${power}; ${one}.`
  const sums = gains.treatments.reduce(
    (sum, { price, hours }) => ({ price: sum.price + price, hours: sum.hours + hours }),
    {
      price: 0,
      hours: 0,
    },
  )
  const together = listed([money(sums.price, currency), figure('hours', sums.hours)])
  return `${power}; ${one}, and all the clean-up work together ${figure('fineSpeed', gains.all)} for ${together}.`
}
