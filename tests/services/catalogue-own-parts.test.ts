// Own parts over the API: kept under an id that is the key to them, laid over the shared catalogue for whoever names it, and
// seen by nobody else.
import { currentCatalogue } from '@ductwright/api/current-catalogue'
import { InputError } from '@ductwright/contract/fault'
import { parseRequest } from '@ductwright/contract/parse-request'
import { prepare } from '@ductwright/pipeline/prepare'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { accept } from '../records/samples.js'
import { smallRequest } from './small-catalogue.js'
import { openStand, post, type Stand } from './stand.js'

let stand: Stand

beforeAll(async () => {
  stand = await openStand()
})

afterAll(() => stand.close())

const parts = (changes: Record<string, unknown> = {}) => {
  const like = stand.catalogue.fans[0]!.part.id
  return { name: 'Bench of Anna', rows: { fans: [{ like, id: 'own-fan', name: 'Measured', ...changes }] } }
}

interface Kept {
  readonly id: string
  readonly version: string
  readonly name: string
  readonly rows: { readonly fans: readonly { id: string; mass_g: number }[] }
}

const keep = async (body: unknown = parts()): Promise<Kept> =>
  (await post(stand, body, {}, '/v1/own-parts')).json<Kept>()

function replace(id: string, body: unknown, ifMatch?: string) {
  const headers = { 'content-type': 'application/json', ...(ifMatch === undefined ? {} : { 'if-match': ifMatch }) }
  return stand.app.inject({ method: 'PUT', url: `/v1/own-parts/${id}`, headers, payload: JSON.stringify(body) })
}

describe('own parts', () => {
  it('are kept with every column, and read under their tag', async () => {
    const reply = await post(stand, parts(), {}, '/v1/own-parts')
    expect(reply.statusCode).toBe(201)
    const { id, version } = reply.json<Kept>()
    expect(reply.headers).toMatchObject({ etag: `"${version}"`, location: `/v1/own-parts/${id}` })
    const read = await stand.app.inject(`/v1/own-parts/${id}`)
    expect(read.json<Kept>()).toMatchObject({ id, version, name: 'Bench of Anna', rows: { fans: [{ id: 'own-fan' }] } })
    expect(read.json<Kept>().rows.fans[0]?.mass_g).toBeGreaterThan(0)
    const headers = { 'if-none-match': `"${version}"` }
    expect((await stand.app.inject({ url: `/v1/own-parts/${id}`, headers })).statusCode).toBe(304)
  })

  it('are replaced by whoever has read them last, and by nobody else', async () => {
    const { id, version } = await keep()
    expect((await replace(id, parts({ mass_g: 300 }))).statusCode).toBe(428)
    const replies = await Promise.all([301, 302, 303].map((mass_g) => replace(id, parts({ mass_g }), `"${version}"`)))
    expect(replies.map(({ statusCode }) => statusCode).toSorted()).toEqual([200, 412, 412])
    const now = (await stand.app.inject(`/v1/own-parts/${id}`)).json<Kept>()
    expect(now.version).not.toBe(version)
  })

  it('that are faulty point at each fault and stay as they were', async () => {
    const { id, version } = await keep()
    const reply = await replace(id, { ...parts({ mass_g: 'heavy' }), owner: 'x' }, `"${version}"`)
    expect(reply.json()).toMatchObject({ status: 422, type: '/problems#invalid-catalogue' })
    const pointers = reply.json<{ faults: { pointer: string }[] }>().faults.map(({ pointer }) => pointer)
    expect(pointers.toSorted()).toEqual(['/owner', '/rows/fans/0/mass_g'])
    expect((await stand.app.inject(`/v1/own-parts/${id}`)).json<Kept>().version).toBe(version)
  })

  it.each(['x', '00000000-0000-4000-8000-000000000000', '..', '%00'])('nobody has are not found: %s', async (id) => {
    const url = `/v1/own-parts/${encodeURIComponent(id)}`
    expect((await stand.app.inject(url)).statusCode).toBe(404)
    expect((await replace(encodeURIComponent(id), parts(), '"x"')).statusCode).toBe(404)
    expect((await stand.app.inject({ method: 'DELETE', url })).statusCode).toBe(404)
  })
})

describe('the catalogue with own parts', () => {
  it('is a version of its own that a request can be pinned to, and nobody else sees', async () => {
    const { id } = await keep()
    const catalogue = await currentCatalogue(stand.records)(id)
    expect(catalogue.fans.map(({ part }) => part.id)).toContain('own-fan')
    expect(await stand.records.getCatalogue(catalogue.version)).not.toBeNull()
    expect((await stand.app.inject('/v1/catalogue')).json()).toMatchObject({ version: stand.catalogue.version })
    expect((await stand.app.inject(`/v1/catalogues/${catalogue.version}`)).statusCode).toBe(404)
    expect((await stand.app.inject(`/v1/catalogues/current/diff/${catalogue.version}`)).statusCode).toBe(404)
    expect((await stand.app.inject('/v1/catalogues?limit=100')).body).not.toContain(catalogue.version)
    expect((await stand.app.inject('/v1/catalogue/fans')).body).not.toContain('own-fan')
  })

  it('answers a request that requires an own part', async () => {
    const { id } = await keep()
    const catalogue = await currentCatalogue(stand.records)(id)
    const request = parseRequest(smallRequest(stand.catalogue, { required: ['own-fan'] }))
    expect(prepare(request, catalogue).problem.candidates.fans.map((fan) => fan.id)).toEqual(['own-fan'])
    expect(() => prepare(request, stand.catalogue)).toThrow(InputError)
  })

  it('is refused for parts nobody keeps, and for parts a newer catalogue no longer takes', async () => {
    const catalogue = currentCatalogue(stand.records)
    await expect(catalogue('00000000-0000-4000-8000-000000000000')).rejects.toThrow(/own_parts.*not the id/)
    const set = stand.catalogue.sets[0]
    const motor = stand.catalogue.motors.find(({ part }) => part.id !== set?.motorId)!.part
    const fan = {
      ...parts().rows.fans[0],
      id: 'own-fan-two',
      shaft_bore_mm: motor.shaftDiameter * 1000,
      motor_can_limit_mm: Math.ceil(motor.canDiameter * 1000),
    }
    const ownSet = {
      id: 'own-set',
      maker: 'Anna',
      name: 'Own set',
      fan_id: 'own-fan-two',
      motor_id: motor.id,
      mass_g: 400,
      price: 1,
    }
    const { id } = await keep({ name: 'Sets', rows: { fans: [fan], sets: [ownSet] } })
    expect((await catalogue(id)).sets.map((each) => each.id)).toContain('own-set')
    const before = stand.catalogue.version
    const gone = await stand.app.inject({
      method: 'PATCH',
      url: '/v1/catalogues/current',
      headers: { 'content-type': 'application/json', 'if-match': `"${before}"` },
      payload: JSON.stringify({
        remove: [motor.id, ...stand.catalogue.sets.filter((each) => each.motorId === motor.id).map((each) => each.id)],
      }),
    })
    expect(gone.statusCode).toBe(201)
    await expect(catalogue(id)).rejects.toThrow(/own parts at \/rows\/sets\/0\/motor_id/)
    await stand.records.putCatalogue(before, stand.catalogue.name, (await stand.records.getCatalogue(before))!)
  })

  it('goes with the parts unless a run is pinned to it', async () => {
    const [loose, pinned] = [await keep(parts({ price: 11 })), await keep(parts({ price: 12 }))]
    const catalogue = currentCatalogue(stand.records)
    const [free, used] = [await catalogue(loose.id), await catalogue(pinned.id)]
    await accept(stand.records, { address: null, catalogueVersion: used.version })
    for (const { id } of [loose, pinned]) {
      expect((await stand.app.inject({ method: 'DELETE', url: `/v1/own-parts/${id}` })).statusCode).toBe(204)
      expect((await stand.app.inject(`/v1/own-parts/${id}`)).statusCode).toBe(404)
      await expect(catalogue(id)).rejects.toThrow(InputError)
    }
    expect(await stand.records.getCatalogue(free.version)).toBeNull()
    expect(await stand.records.getCatalogue(used.version)).not.toBeNull()
  })
})
