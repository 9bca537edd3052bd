// Faults of a sweep request: all at once, each naming field, rule, value and cure.
import { parseRequest, requestSchema } from '@ductwright/contract/parse-request'
import { describe, expect, it } from 'vitest'
import { broken, faultsOf } from './faults-of.js'
import { givenAirframe, least, withField } from './sample-requests.js'

describe('faults of a request', () => {
  it('are all reported at once, each with its pointer', () => {
    const request = {
      title: 'x'.repeat(121),
      adress: 'pilot@example.org',
      address: 'a@b.co, c@d.co',
      target: { speed_km_h: '900 km/h', basis: 'fast' },
      budget: '$900',
      airframe: { id: 'Jet One', given: { ...givenAirframe, span_mm: 9, wing_span: 1 } },
      mass: { limit_kg: '5 km', fixed_kg: 3 },
      field: { elevation_m: 9000, temperature_c: '15 X', runway: 100 },
      profile: { reserve: 0, cruise_speed_km_h: 590 },
      owned: ['fan-one', { id: 'pack-one', count: 0 }, { id: 'pack-two', count: 1.5 }, 7, 'fan-one'],
      required: ['motor-one'],
      excluded: ['motor-one'],
      limits: null,
      sweep: { duties: [0.1], duty_step: 0.1, duty_min: 0.5, arrangements: ['serial'], resolution: { cost: -1 } },
    }
    expect(broken(() => parseRequest(request))).toEqual([
      '/address address',
      '/adress unknown-field',
      '/airframe/given exclusive',
      '/airframe/given/span_mm range',
      '/airframe/given/wing_span unknown-field',
      '/airframe/id id',
      '/budget currency',
      '/excluded contradiction',
      '/field/elevation_m range',
      '/field/runway unknown-field',
      '/field/temperature_c unit',
      '/limits type',
      '/mass/fixed_kg exclusive',
      '/mass/limit_kg dimension',
      '/owned duplicate',
      '/owned/1/count range',
      '/owned/2/count range',
      '/owned/3 type',
      '/profile/reserve range',
      '/sweep/arrangements/0 choice',
      '/sweep/duties/0 range',
      '/sweep/duty_min exclusive',
      '/sweep/duty_step exclusive',
      '/sweep/resolution/cost range',
      '/target/basis choice',
      '/target/speed_km_h range',
      '/title length',
    ])
  })

  it('name field, rule, value and what is allowed', () => {
    const [fault] = faultsOf(() => parseRequest(withField('field.elevation_m', '20000 ft')))
    expect(fault).toEqual({
      pointer: '/field/elevation_m',
      rule: 'range',
      value: '"20000 ft"',
      message:
        'elevation_m must be from -430 m to 5000 m (6096 m): the lowest dry land is the shore of the Dead Sea, ' +
        'and no model club flies above 5000 m; got "20000 ft"',
    })
  })

  it.each([
    ['speed', 'target.speed', '"speed_km_h"'],
    ['titel', 'titel', '"title"'],
    ['limit', 'mass.limit', '"limit_kg"'],
    ['flight_time', 'profile.flight_time', '"flight_time_min"'],
    ['duty_setp', 'sweep.duty_setp', '"duty_step"'],
  ])('suggest the nearest known field for %s', (_name, path, suggestion) => {
    const faults = faultsOf(() => parseRequest(withField(path, 1)))
    expect(faults.map((fault) => fault.message).join('\n')).toContain(`did you mean ${suggestion}`)
  })

  it('list the known fields when none is near', () => {
    const [fault] = faultsOf(() => parseRequest(withField('mass.weather', 1)))
    expect(fault?.message).toBe('"weather" is not a field here; known are limit_kg, fixed_kg')
  })

  it('name what is missing', () => {
    expect(broken(() => parseRequest({}))).toEqual(['/airframe required', '/target required'])
    expect(broken(() => parseRequest({ target: {}, airframe: {} }))).toEqual([
      '/airframe required',
      '/target/speed_km_h required',
    ])
    const [fault] = faultsOf(() => parseRequest({ ...least, target: {} }))
    expect(fault?.message).toMatch(/^speed_km_h is missing; it must be a speed: a number in km\/h/)
  })

  it('refuse a cruise above the target, and a part both required and excluded', () => {
    expect(broken(() => parseRequest(withField('profile.cruise_speed_km_h', 361)))).toEqual([
      '/profile/cruise_speed_km_h contradiction',
    ])
    expect(broken(() => parseRequest({ ...least, required: ['a'], excluded: ['b', 'a'] }))).toEqual([
      '/excluded contradiction',
    ])
  })

  it('refuse both rules of mass, and an airframe named twice or not at all', () => {
    expect(broken(() => parseRequest(withField('mass', { limit_kg: 4, fixed_kg: 4 })))).toEqual([
      '/mass/fixed_kg exclusive',
    ])
    expect(broken(() => parseRequest(withField('airframe.given', givenAirframe)))).toEqual([
      '/airframe/given exclusive',
    ])
    expect(broken(() => parseRequest({ ...least, airframe: { measured: null } }))).toEqual(['/airframe required'])
  })

  it.each([
    ['target.speed_km_h', 49.9, 800.1],
    ['field.elevation_m', -431, 5001],
    ['field.temperature_c', -30.1, 55.1],
    ['field.runway_m', 4, 3001],
    ['field.rolling_friction', -0.01, 0.51],
    ['mass.limit_kg', 0.29, 25.1],
    ['mass.fixed_kg', 0.29, 25.1],
    ['profile.flight_time_min', 0.4, 31],
    ['profile.full_throttle_share', 0, 1.01],
    ['profile.pass_s', 0.9, 121],
    ['profile.reserve', 0.04, 0.61],
    ['profile.load_factor', 0.9, 61],
    ['run.length_m', 49, 5001],
    ['run.entry_speed_share', 0.19, 1.51],
    ['run.entry_height_m', -1, 501],
    ['wanted.margin', -0.1, 3.1],
    ['limits.margin', -0.1, 3.1],
    ['limits.headroom', -0.1, 0.51],
    ['limits.stall_speed_km_h', 19, 201],
    ['limits.thrust_to_weight', -0.1, 3.1],
    ['limits.flight_time_min', 0.4, 31],
    ['sweep.duty_step', 0.004, 0.51],
    ['sweep.duty_min', 0.29, 1.01],
    ['sweep.charge', 0.19, 1.01],
  ])('keep %s from being %d or %d', (path, below, above) => {
    const pointer = `/${path.replace('.', '/')}`
    expect(broken(() => parseRequest(withField(path, below)))).toEqual([`${pointer} range`])
    expect(broken(() => parseRequest(withField(path, above)))).toEqual([`${pointer} range`])
  })

  it.each([
    ['sweep.duties', []],
    ['sweep.nozzle_ratios', []],
    ['sweep.arrangements', []],
    ['sweep.duties', Array(102).fill(0.5)],
    ['owned', Array.from({ length: 201 }, (_, i) => `part-${i}`)],
    ['title', '   '],
  ])('refuse a %s that is empty or too long', (path, value) => {
    expect(broken(() => parseRequest(withField(path, value)))).toEqual([`/${path.replace('.', '/')} length`])
  })

  it('are the same through the schema the API is described by', () => {
    expect(requestSchema.safeParse(least).data).toEqual(parseRequest(least))
    expect(requestSchema.safeParse({}).success).toBe(false)
  })
})
