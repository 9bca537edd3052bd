// When to close the throttle on the bench: each reading that leaves its band or passes a rating, why that matters, and
// what to look at. Causes and remedies are common practice, no source.
import { figure, type Quantity } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Result, SetupFigures } from '@ductwright/contract/result'
import { bandOf, type Study } from '../banded.js'
import { capital } from '../capital.js'
import type { Pair, Section } from '../letter.js'
import { type PartRatings, partRatings, type Rating } from './part-ratings.js'

const rule = 'At the end of a band, or at a rating that comes first. Find the cause before the next run.'

export function stopSection(figures: SetupFigures, study: Study, air: Result['air']): Section {
  const ratings = partRatings(figures, air)
  const pairs = [
    ...tooMuch(figures, study, ratings),
    ...tooLittle(figures, study),
    ...tooHot(ratings),
    {
      label: 'Rough tone, shaking, smell, soft leads',
      value:
        'Something rubs, is loose or stalls. Check balance and tip clearance of the rotor, bearings, blades, joints.',
    },
  ]
  return {
    heading: 'Throttle off if',
    blocks: [
      { kind: 'paragraph', text: rule },
      { kind: 'pairs', pairs },
    ],
  }
}

function tooMuch({ nozzle_exit_mm: exit }: SetupFigures, study: Study, ratings: PartRatings): Pair[] {
  const at = figure('diameter', exit)
  const load = `more load than these parts explain. Check nozzle exit (${at}), timing, cell count, duct free; then lower the cap.`
  const spin = `the fan runs empty. Check nozzle exit not above ${at}, leaks in the duct, the rotor tight on its shaft.`
  return [
    ...above('Current', 'current', bandEnd(study, 'pack_current_a'), ratings.current, load),
    ...above('Rotation', 'rotation', bandEnd(study, 'shaft_rpm'), ratings.rotation, spin),
  ]
}

function bandEnd(study: Study, key: string): number {
  return bandOf(study, `standing.${key}`)?.[1] ?? Number.POSITIVE_INFINITY
}

/** The end of the band as it stands beside the reading, or the rating that comes before it. */
function above(label: string, quantity: Quantity, high: number, rating: Rating | null, check: string): Pair[] {
  const end = Math.ceil(high - 1e-6)
  const first = rating !== null && rating.value <= end
  const value = first ? rating.value : end
  if (!Number.isFinite(value)) return []
  const why = first
    ? `The limit on ${inert(rating.words, 120)} is reached: `
    : rating === null
      ? ''
      : `${figure(quantity, rating.value)} is the limit on ${inert(rating.words, 120)}; before that, `
  return [{ label: `${label} above ${figure(quantity, value)}`, value: capital(`${why}${check}`) }]
}

type Low = readonly [label: string, key: string, quantity: Quantity, decimals: number, words: string]

const lows: readonly Low[] = [
  [
    'Voltage',
    'pack_voltage_v',
    'voltage',
    1,
    'Weak, cool or half-full packs, or a bad joint. Check each cell, connectors, leads.',
  ],
  [
    'Current',
    'pack_current_a',
    'current',
    0,
    'Not at full throttle, or packs down. Check throttle ends taught, timing, charge.',
  ],
  [
    'Rotation',
    'shaft_rpm',
    'rotation',
    0,
    'Something brakes, or the meter is set wrong. Check blades rubbing, timing, pole count.',
  ],
  [
    'Thrust',
    'thrust_n',
    'force',
    1,
    'Air is lost on its way. Check duct joints and steps, inlet lip, nozzle exit, blades.',
  ],
]

function tooLittle({ standing }: SetupFigures, study: Study): Pair[] {
  return lows.flatMap(([label, key, quantity, decimals, words]) => {
    const band = bandOf(study, `standing.${key}`)
    if (band === null || !(standing.thrust_n > 0)) return []
    // Rounded down, as it stands beside the reading.
    const value = Math.floor(band[0] * 10 ** decimals + 1e-6) / 10 ** decimals
    return [{ label: `${label} below ${figure(quantity, value)}`, value: words }]
  })
}

function tooHot({ motorCase, controller, pack }: PartRatings): Pair[] {
  const limits = [
    ['motor case', motorCase],
    ['controller', controller],
    ['packs', pack],
  ] as const
  const known = limits.flatMap(([name, rating]) =>
    rating === null ? [] : [`${name} ${figure('temperature', rating.value)}`],
  )
  if (known.length === 0) return []
  return [
    {
      label: 'Hotter than rated',
      value: `${capital(known.join(', '))}: beyond that magnets, board or cells are lost. Check cooling air, timing; run shorter.`,
    },
  ]
}
