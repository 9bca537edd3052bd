// The schema of answers: takes an answer, refuses anything more, anything less, and numbers that are none.
import { sha256Hex } from '@ductwright/contract/canonical-json'
import { parseRequest } from '@ductwright/contract/parse-request'
import type { Result } from '@ductwright/contract/result'
import { resultSchema } from '@ductwright/contract/result-schema'
import { describe, expect, it } from 'vitest'
import { full, setup } from './sample-requests.js'

const hash = sha256Hex('anything')

const nothingFound: Result = {
  format: 'ductwright-result/1',
  model_version: '1',
  catalogue: { name: 'Invented', version: hash, currency: 'EUR', dated: '2025-01-01' },
  request_hash: hash,
  answer_hash: hash,
  understood: parseRequest(full),
  airframe: {
    id: 'own-jet',
    name: 'Own jet',
    drag_area_m2: 0.0052,
    drag_basis: 'stated',
    drag_terms: [],
    treatments: [],
    speed_limits: [{ criterion: 'design-speed', words: 'stated design speed', speed_km_h: 430 }],
  },
  air: {
    elevation_m: 200,
    temperature_c: 20,
    pressure_hpa: 989.5,
    density_kg_m3: 1.176,
    sound_speed_m_s: 343.2,
    viscosity_upa_s: 18.1,
  },
  outcome: 'none',
  headline: 'Nothing fits.',
  blamed: 'this airframe',
  now: null,
  rules: {
    resolution: { speed_km_h: 2, flight_time_s: 5, cost: 5, margin: 0.02 },
    narrowed: true,
    speed_floor_km_h: 306,
    words: ['Speed is rounded to 2 km/h.'],
  },
  counts: {
    raw: 10,
    compatible: 0,
    misfits: [{ rule: 'voltage', words: 'too many cells', count: 10 }],
    front: 0,
    purchases: 0,
  },
  front: [],
  picks: [],
  knee: null,
  staircase: [],
  nearest: [],
  relaxations: [
    {
      relax: 'budget',
      words: 'Raise the budget.',
      from: 600,
      to: 742.5,
      unit: 'EUR',
      setup: { ...setup, arrangement: 'series' },
      raw: { speed_km_h: 312, flight_time_s: 250, cost: 742.5, margin: 0.12 },
      shopping: [],
    },
  ],
  drag_work: { speed_now_km_h: 300, speed_then_km_h: 315, price: 80, hours: 12, words: 'Clean it up.' },
  names: { 'own-jet': 'Own jet' },
  assumptions: [],
  cautions: [],
}

const [relaxed] = nothingFound.relaxations

describe('the schema of answers', () => {
  it('takes an answer and gives it back unchanged', () => {
    expect(resultSchema.parse(JSON.parse(JSON.stringify(nothingFound)))).toEqual(nothingFound)
  })

  it.each([
    ['an unknown field', { ...nothingFound, clock: '12:00' }],
    ['a missing field', { ...nothingFound, headline: undefined }],
    ['a blame that is no word', { ...nothingFound, blamed: false }],
    ['a number that is none', { ...nothingFound, rules: { ...nothingFound.rules, speed_floor_km_h: Number.NaN } }],
    ['a count below zero', { ...nothingFound, counts: { ...nothingFound.counts, front: -1 } }],
    ['a count of the work', { ...nothingFound, counts: { ...nothingFound.counts, feasible: 0 } }],
    ['a hash that is none', { ...nothingFound, answer_hash: 'abc' }],
    ['a relaxation of nothing known', { ...nothingFound, relaxations: [{ ...relaxed, relax: 'luck' }] }],
    ['a relaxation to no number', { ...nothingFound, relaxations: [{ ...relaxed, to: Number.NaN }] }],
    ['a knee of no rank', { ...nothingFound, knee: { rank: 0, why: '' } }],
    ['another format', { ...nothingFound, format: 'ductwright-result/2' }],
  ])('refuses %s', (_name, answer) => {
    expect(resultSchema.safeParse(answer).success).toBe(false)
  })
})
