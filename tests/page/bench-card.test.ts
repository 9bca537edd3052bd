// The bench card: every number a builder sets, reads or flies by, from the same figures and bands as the letter, and the
// ends at which to stop that agree with the bands beside the readings.
import type { Pick, Result, SetupFigures } from '@ductwright/contract/result'
import { benchCard } from '@ductwright/report/bench-card/bench-card'
import { partRatings } from '@ductwright/report/bench-card/part-ratings'
import type { Letter } from '@ductwright/report/letter'
import { distinctPicks } from '@ductwright/report/pick-names'
import { sectionsText } from '@ductwright/report/plain'
import { describe, expect, it } from 'vitest'
import { answer, figures } from '../report/fixture.js'

const result = answer()
const first = result.picks[0]!

function section(card: Letter, heading: string): string {
  const found = card.sections.filter((one) => one.heading === heading)
  expect(found).toHaveLength(1)
  return sectionsText(found, 400)
}

const cardOf = (changed: Partial<Pick>, from: Result = result) => benchCard(from, { ...first, ...changed })

describe('the bench card', () => {
  const card = benchCard(result, first)

  it('has what the workshop needs, in the order of work', () => {
    expect(card.sections.map(({ heading }) => heading)).toEqual([
      '',
      'Parts',
      'Set',
      'On the bench',
      'Throttle off if',
      'In the air',
      'Cautions',
    ])
    expect(card.headline).toBe('Bench card: number 1, best all round, best for the money')
  })

  it('lists what is owned and what is to be bought', () => {
    const parts = section(card, 'Parts')
    expect(parts).toMatch(/Merle 90 \/ 12 blades, fan +0 +1/)
    expect(parts).toMatch(/Brisk 6S 5000, pack \(2 needed\) +2 +0/)
  })

  it('gives the throttle cap in per cent and as current, and those of the refinements', () => {
    const set = section(card, 'Set')
    expect(set).toMatch(/Throttle cap: +92 %/)
    expect(set).toMatch(/That draws: +100 A standing, packs full and warm/)
    expect(set).toMatch(/Just enough for the target: +91\.3 %, 96 A standing/)
    expect(set).toMatch(/Nozzle exit: +78\.5 mm/)
    expect(set).toMatch(/Middle of the packs: +412 mm behind the nose, 404 to 421 mm keeps the balance/)
    expect(set).toMatch(/Packs: +two packs in series, 12 cells in series/)
  })

  it('sets the cut-off for the cells there are, and names the lowest voltage of the flight', () => {
    expect(section(card, 'Set')).toMatch(
      /3\.2 V a cell, 38\.4 V for 12 in series, soft \(common practice\); set an alarm just below 41\.4 V/,
    )
  })

  it('gives one place for the packs where they cannot be moved', () => {
    for (const pack_window_mm of [null, [412.4, 412.4]] as const) {
      const front = [{ ...result.front[0]!, figures: { ...result.front[0]!.figures, pack_window_mm } }]
      expect(section(cardOf({}, { ...result, front }), 'Set')).toMatch(/Middle of the packs: +412 mm behind the nose\n/)
    }
  })

  it('warns when the flight would go below the cut-off', () => {
    const { flight } = first.study
    const weak = cardOf({ study: { ...first.study, flight: { ...flight!, least_pack_voltage_v: 34.9 } } })
    expect(section(weak, 'Set')).toMatch(/this flight would go down to 34\.9 V under load: land earlier/)
  })

  it('shows every standing reading with its band and room for the measured one', () => {
    const grid = card.sections[3]?.blocks.find((block) => block.kind === 'grid')
    if (grid?.kind !== 'grid') throw new Error('the readings must be a grid')
    expect(grid.columns.map(({ title }) => title).at(-1)).toBe('measured')
    expect(grid.rows).toEqual([
      ['Pack voltage, V', '43.0', '40.4\u00a0to\u00a046.1', ''],
      ['Pack current, A', '100', '93\u00a0to\u00a0107', ''],
      ['Power from the packs, W', '4,295', '4,037\u00a0to\u00a04,596', ''],
      ['Rotation, rpm', '37,950', '35,673\u00a0to\u00a040,607', ''],
      ['Thrust, N', '62.3', '58.5\u00a0to\u00a066.7', ''],
      ['Thrust on a scale, kg', '6.35', '5.97\u00a0to\u00a06.80', ''],
      ['Efflux, m/s', '128', '120\u00a0to\u00a0138', ''],
    ])
  })

  it('stops at the ends of the bands as they stand beside the readings, or at a rating before', () => {
    const stop = section(card, 'Throttle off if')
    expect(stop).toMatch(/Current above 107 A: +The limit on speed controller current is reached: more load/)
    expect(stop).toMatch(/Rotation above 40,607 rpm: +44,076 rpm is the limit on fan tip speed; before that, the fan/)
    expect(stop).toContain('Voltage below 40.4 V')
    expect(stop).toContain('Current below 93 A')
    expect(stop).toContain('Rotation below 35,673 rpm')
    expect(stop).toContain('Thrust below 58.5 N')
    expect(stop).toMatch(/Hotter than rated: +Motor case 95 °C, packs 59 °C/)
  })

  it('stops at the rating when the band goes beyond it', () => {
    const limits = [{ limit: 'pack-current', words: 'pack current', used: 0.98 }]
    const front = [{ ...result.front[0]!, figures: { ...result.front[0]!.figures, limits } }]
    const stop = section(cardOf({}, { ...result, front }), 'Throttle off if')
    expect(stop).toMatch(/Current above 101 A: +The limit on pack current is reached/)
    expect(stop).not.toContain('Hotter than rated')
  })

  it('flies by the figures of the flight', () => {
    const air = section(card, 'In the air')
    expect(air).toMatch(/Stalls at: +61 km\/h \(57 to 66\), 55 km\/h with flaps/)
    expect(air).toMatch(/Lifts off at: +73 km\/h \(68 to 79\), after 39 m/)
    expect(air).toMatch(/Land at: +71 km\/h \(66 to 77\)/)
    expect(air).toMatch(/Never above: +432 km\/h: flutter of the wing/)
    expect(air).toMatch(/Passes: +7 of 10 s; full throttle for 42 s in one go/)
    expect(air).toMatch(/Land: +on the ground by 4:47 min or 4,000 mAh drawn, whichever is first/)
    expect(air).toMatch(/After landing, at most: +motor case 81 °C \(74 to 85\), controller 73 °C .*, packs 49 °C/)
  })

  it('counts cooling in whole laps: along the run, back, and two half turns', () => {
    // 2 · 500 m at 161 km/h are 22.4 s, two half turns of 5.1 s make 32.6 s: 18.3 s of cooling are one lap.
    expect(section(card, 'In the air')).toMatch(/at least 19 s of cruise after each pass: 1 lap of 33 s at 161 km\/h/)
    const { flight } = first.study
    const hot = cardOf({ study: { ...first.study, flight: { ...flight!, cool_down_s: 70 } } })
    expect(section(hot, 'In the air')).toMatch(/at least 70 s of cruise after each pass: 3 laps of 33 s/)
  })

  it('repeats every caution whole, behind its own', () => {
    const items = card.sections.at(-1)?.blocks.flatMap((block) => (block.kind === 'list' ? block.items : [])) ?? []
    expect(items.slice(-result.cautions.length)).toEqual(result.cautions)
    expect(items.length).toBeGreaterThan(result.cautions.length)
    expect(items.join(' ')).toMatch(/hands stay away from inlet and outlet/)
  })

  it('does without bands and without a flight', () => {
    const bare = cardOf({ study: { ...first.study, bands: {}, flight: null } })
    expect(section(bare, 'Throttle off if')).toMatch(/Current above 107 A: +The limit on speed controller current/)
    expect(section(bare, 'Throttle off if')).not.toContain('below')
    expect(section(bare, 'In the air')).toMatch(/Flight time to the reserve: +4:23 min/)
  })

  it('names a setup that is several picks once, with all its names', () => {
    const picks = result.picks.map((pick) => (pick.pick === 'safest' ? { ...pick, rank: 1 } : pick))
    const twin = { ...result, picks }
    expect(distinctPicks(twin).map(({ pick }) => pick)).toEqual(['best-all-round', 'fastest'])
    expect(benchCard(twin, first).headline).toBe('Bench card: number 1, best all round, best for the money, safest')
  })

  it('refuses a pick that is not of the list', () => {
    expect(() => cardOf({ rank: 99 })).toThrow('the pick must be of the list, got number 99')
  })
})

/** A setup of so many full cells behind a resistance, at two currents. */
function loaded(cells: number, resistance: number, standing: number, flying: number): SetupFigures {
  const from = figures(360, 1, 0.2)
  const at = (current: number) => ({ pack_current_a: current, pack_voltage_v: cells * 4.2 - resistance * current })
  return { ...from, standing: { ...from.standing, ...at(standing) }, top_full: { ...from.top_full, ...at(flying) } }
}

describe('ratings worked back from what is used of them', () => {
  it('are the first of several on a current or a rotation', () => {
    const limits = [
      { limit: 'esc-current', words: 'speed controller current', used: 0.5 },
      { limit: 'pack-current', words: 'pack current', used: 0.8 },
      { limit: 'tip-speed', words: 'fan tip speed', used: 0.9 },
    ]
    const { current, rotation, pack } = partRatings({ ...loaded(12, 0.017, 160, 150), limits }, result.air)
    expect(current).toEqual({ words: 'pack current', value: 200 })
    expect(rotation?.words).toBe('fan tip speed')
    expect(pack).toBeNull()
  })

  it('are a rise above the air for temperatures', () => {
    const limits = [{ limit: 'pack-temperature', words: 'pack temperature', used: 0.5 }]
    const from = { ...figures(360, 1, 0.2), limits }
    const warm = { ...from, temperatures: { ...from.temperatures, pack_c: 40 } }
    expect(partRatings(warm, { ...result.air, temperature_c: 20 }).pack?.value).toBe(60)
  })
})
