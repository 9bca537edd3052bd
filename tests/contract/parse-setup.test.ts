// One setup on its own: shares its sections with the sweep request, so only what differs is tested here.
import { parseRequest } from '@ductwright/contract/parse-request'
import { parseSetup } from '@ductwright/contract/parse-setup'
import { understoodSetup } from '@ductwright/contract/understood-schema'
import { describe, expect, it } from 'vitest'
import { broken } from './faults-of.js'
import { full, least, setup } from './sample-requests.js'

const single = { airframe: { id: 'jet-one' }, setup }

describe('a setup request', () => {
  it('has the defaults of a sweep request, a cruise of 135 km/h, and a title of its parts', () => {
    const sweep = parseRequest(least)
    expect(parseSetup(single)).toEqual({
      title: 'fan-one with motor-one',
      airframe: sweep.airframe,
      setup,
      treatments: [],
      target: null,
      mass: sweep.mass,
      field: sweep.field,
      profile: { ...sweep.profile, cruiseSpeed: 37.5 },
      run: sweep.run,
      limits: sweep.limits,
      owned: [],
      charge: 0.7,
    })
  })

  it('reads shared sections as a sweep request does', () => {
    const { airframe, mass, field, profile, run, limits, owned } = full
    const read = parseSetup({ setup, airframe, mass, field, profile, run, limits, owned, charge: '80 %' })
    const { title, setup: chosen, charge, target, ...shared } = read
    expect(target).toBeNull()
    expect(parseRequest(full)).toMatchObject(shared)
    expect(charge).toBe(0.8)
    expect(chosen).toEqual(setup)
    expect(title).toBe('fan-one with motor-one')
  })

  it('is what the schema of understood setups describes', () => {
    const understood = parseSetup(single)
    expect(understoodSetup.parse(JSON.parse(JSON.stringify(understood)))).toEqual(understood)
  })

  it('keeps timing in degrees, whatever the unit it came in', () => {
    expect(parseSetup({ ...single, setup: { ...setup, timing_deg: '15°' } }).setup.timing_deg).toBe(15)
    expect(parseSetup({ ...single, setup: { ...setup, timing_deg: '0.5 rad' } }).setup.timing_deg).toBeCloseTo(
      28.6479,
      4,
    )
  })

  it('reports all faults at once', () => {
    const request = {
      airframe: {},
      setup: { ...setup, fan: 'Fan One', timing_deg: '99°', nozzle_ratio: undefined, thrust: 3 },
      target: { speed_km_h: 300 },
    }
    expect(broken(() => parseSetup(request))).toEqual([
      '/airframe required',
      '/setup/fan id',
      '/setup/nozzle_ratio required',
      '/setup/thrust unknown-field',
      '/setup/timing_deg range',
      '/target unknown-field',
    ])
  })
})
