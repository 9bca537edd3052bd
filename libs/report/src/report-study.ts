// What is uncertain about one setup and what would make it faster, for its report: the spread, what top speed responds to
// with the first move in front, clean-up work, and what the label of the pack claims.
import { figure, odds, percent } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Sensitivity, SetupFigures, SetupStudy } from '@ductwright/contract/result'
import { bandedPairs, type NumberKey, type Row } from './banded.js'
import { cleanUpBlocks } from './clean-up.js'
import type { Block, Pair, Section } from './letter.js'
import { sensitivitySentence } from './performance.js'
import { driversSentence, sampleWords } from './study-words.js'

const slopes: readonly (readonly [label: string, key: NumberKey<Sensitivity>])[] = [
  ['100 W more from the packs', 'km_h_per_100_w'],
  ['10 cm² less drag area', 'km_h_per_10_cm2_less'],
  ['100 g less mass', 'km_h_per_100_g_less'],
  ['Nozzle exit a point tighter (1 % of the annulus)', 'km_h_per_nozzle_point_less'],
  ['1 m/s more efflux', 'km_h_per_m_s_efflux'],
  ['1 mΩ less in packs and leads', 'km_h_per_mohm_less'],
]

const elasticities: readonly Row<SetupFigures['elasticity']>[] = [
  ['Speed for 1 % more power', 'power', 'finePercent'],
  ['Speed for 1 % more drag area', 'drag_area', 'finePercent'],
  ['Speed for 1 % more mass', 'mass', 'finePercent'],
]

export function spreadSection(study: SetupStudy): Section {
  const shares: Pair[] = study.drivers.map(({ words, share }) => ({ label: inert(words, 120), value: percent(share) }))
  const flies = `Odds that it flies level: ${odds(study.flies)}.`
  return {
    heading: 'What the spread comes from',
    blocks: [
      { kind: 'paragraph', text: `${driversSentence(study)} ${flies} ${sampleWords(study)}` },
      ...(shares.length === 0 ? [] : [{ kind: 'pairs' as const, pairs: shares }]),
    ],
  }
}

export function responseSection(figures: SetupFigures, study: SetupStudy | null, currency: string): Section {
  const own: Block[] = [
    { kind: 'paragraph', text: sensitivitySentence(figures) },
    { kind: 'pairs', pairs: [...gains(study), ...bandedPairs(elasticities, figures.elasticity, 'elasticity.', study)] },
  ]
  const first: Block[] = study === null ? [] : [{ kind: 'paragraph', text: inert(study.sensitivity.first_move, 600) }]
  const work = study === null ? [] : cleanUpBlocks(study.sensitivity, currency)
  return { heading: 'What top speed responds to', blocks: [...first, ...own, ...work] }
}

function gains(study: SetupStudy | null): Pair[] {
  if (study === null) return []
  return slopes.map(([label, key]) => ({ label, value: figure('fineSpeed', study.sensitivity[key]) }))
}

export function packClaimSection(study: SetupStudy): Section {
  return {
    heading: 'What the label of the pack claims',
    blocks: [{ kind: 'paragraph', text: inert(study.pack_claim, 600) }],
  }
}
