// A sweep request: every default, and every field as it is understood.
import { parseRequest } from '@ductwright/contract/parse-request'
import { understoodRequest } from '@ductwright/contract/understood-schema'
import { describe, expect, it } from 'vitest'
import { full, least, setup, withField } from './sample-requests.js'

describe('the defaults of a request', () => {
  it('are these, in SI', () => {
    expect(parseRequest(least)).toEqual({
      title: 'Toward 360 km/h',
      address: null,
      target: { speed: 100, basis: 'steady' },
      budget: null,
      budgetCurrency: null,
      airframe: { kind: 'catalogue', id: 'jet-one', measured: null },
      mass: { limit: null, fixed: null },
      field: { elevation: 0, temperature: 288.15, runway: 120, rollingFriction: 0.04 },
      profile: {
        flightTime: 240,
        fullThrottleShare: 0.25,
        passTime: 10,
        cruiseSpeed: 45,
        reserve: 0.2,
        loadFactor: 6,
        turnRadius: null,
        pullUpRadius: null,
        climbHeight: 60,
        approachTime: 30,
      },
      run: { length: 400, entrySpeedShare: 0.6, entryHeight: 0, diveAngle: Math.PI / 6 },
      treatments: [],
      owned: [],
      required: [],
      excluded: [],
      wanted: { flightTime: 240, margin: 0.25 },
      wishes: { weights: { speed: 2, time: 1, cost: 1, margin: 1 }, expression: null },
      limits: { margin: 0, headroom: 0.1, stallSpeed: 80 / 3.6, thrustToWeight: 0.4, flightTime: null },
      sweep: {
        duties: [0.5, 0.6, 0.7, 0.8, 0.9, 1],
        nozzleRatios: [0.8, 0.84, 0.88, 0.92],
        arrangements: ['single', 'series', 'parallel'],
        charge: 0.7,
        resolution: { speed: 2 / 3.6, time: 5, cost: 5, margin: 0.02 },
        wholeFront: false,
      },
    })
  })

  it('of a measured speed are one timed run and 1.5 %', () => {
    const { airframe } = parseRequest(withField('airframe.measured', { setup, speed_km_h: 288 }))
    expect(airframe.measured).toEqual({ setup, speed: 80, basis: 'in-run', speedUncertainty: 0.015 })
  })

  it('of a setup are one pack and full throttle', () => {
    const { arrangement, duty, ...named } = setup
    const { airframe } = parseRequest(withField('airframe.measured', { setup: named, speed_km_h: 288 }))
    expect(airframe.measured?.setup).toMatchObject({ arrangement: 'single', duty: 1 })
  })

  it('let the wanted flight time follow the profile, and the title and cruise the target', () => {
    const request = parseRequest({ ...least, target: { speed_km_h: '200 mph' }, profile: { flight_time_min: 6 } })
    expect(request.wanted.flightTime).toBe(360)
    expect(request.title).toBe('Toward 321.9 km/h')
    expect(request.profile.cruiseSpeed).toBeCloseTo(0.45 * 89.408, 10)
  })
})

describe('a request with every field', () => {
  it('is read into SI, lists sorted and each entry once', () => {
    const request = parseRequest(full)
    expect(request).toMatchObject({
      title: 'Everything said',
      address: 'Pilot@example.org',
      target: { speed: 90, basis: 'in-run' },
      budget: 900,
      budgetCurrency: 'EUR',
      mass: { limit: 4.5, fixed: null },
      field: { elevation: 200, temperature: 293.15, runway: 90, rollingFriction: 0.08 },
      profile: { flightTime: 270, fullThrottleShare: 0.3, passTime: 12, cruiseSpeed: 40, reserve: 0.25, loadFactor: 8 },
      run: { length: 300, entrySpeedShare: 0.7, entryHeight: 50 },
      owned: [
        { id: 'fan-one', count: 1 },
        { id: 'pack-two', count: 2 },
      ],
      required: ['esc-one', 'fan-one'],
      excluded: ['motor-two'],
      wanted: { flightTime: 300, margin: 0.3 },
      wishes: { weights: { speed: 3, time: 0, cost: 2, margin: 1 }, expression: 'speed_km_h - 0.05 * cost' },
      limits: { margin: 0.1, headroom: 0.15, stallSpeed: 20, thrustToWeight: 0.5, flightTime: 180 },
    })
    expect(request.sweep).toEqual({
      duties: [0.8, 0.9, 1],
      nozzleRatios: [0.85, 0.9],
      arrangements: ['single', 'parallel'],
      charge: 0.8,
      resolution: { speed: 1, time: 10, cost: 1, margin: 0 },
      wholeFront: true,
    })
  })

  it('keeps a given airframe in SI under its name, with the measured setup', () => {
    const { airframe } = parseRequest(full)
    expect(airframe).toMatchObject({
      kind: 'given',
      name: 'Own jet',
      airframe: { id: 'own-jet', dragArea: 0.0052, span: 1.1, wingArea: 0.26, emptyMass: 2.35, launch: 'wheels' },
      measured: { speed: 80, basis: 'steady', speedUncertainty: 0.02 },
    })
  })

  it('means the same whatever the order of its fields and lists', () => {
    const turned = Object.fromEntries(Object.entries(full).reverse())
    const lists = { owned: full.owned.toReversed(), required: full.required.toReversed() }
    expect(parseRequest({ ...turned, ...lists })).toEqual(parseRequest(full))
  })

  it.each([
    ['the least', least],
    ['the full', full],
  ])('is what the schema of understood requests describes: %s', (_name, request) => {
    const understood = parseRequest(request)
    expect(understoodRequest.parse(JSON.parse(JSON.stringify(understood)))).toEqual(understood)
  })

  it('takes null where null means none', () => {
    const nothing = { address: null, budget: null, limits: { flight_time_min: null } }
    expect(parseRequest({ ...least, ...nothing })).toEqual(parseRequest(least))
  })
})

describe('the ladder of duties', () => {
  it('goes from the least duty to full throttle in clean steps', () => {
    const { duties } = parseRequest(withField('sweep', { duty_step: 0.02, duty_min: 0.6 })).sweep
    expect(duties).toHaveLength(21)
    expect(duties.slice(0, 6)).toEqual([0.6, 0.62, 0.64, 0.66, 0.68, 0.7])
    expect(duties.at(-1)).toBe(1)
  })

  it('holds full throttle when the step does not meet it, and when nothing is below it', () => {
    expect(parseRequest(withField('sweep', { duty_step: 0.3 })).sweep.duties).toEqual([0.5, 0.8, 1])
    expect(parseRequest(withField('sweep', { duty_min: 1 })).sweep.duties).toEqual([1])
  })
})
