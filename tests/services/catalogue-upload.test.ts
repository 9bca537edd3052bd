// Catalogues over the API: sent whole or changed row by row, kept as versions nobody can change, listed, read and compared;
// a fault anywhere leaves the version in force where it was, and two people cannot overwrite each other unseen.
import { catalogueContent } from '@ductwright/catalogue/catalogue-content'
import { generateCatalogue, generateFiles } from '@ductwright/catalogue/generate/generate-catalogue'
import { readCatalogue } from '@ductwright/catalogue/read-catalogue'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { openStand, post, type Stand } from './stand.js'

const size = { fans: 6, motors: 8, escs: 5, packs: 6, airframes: 3 }
const files = generateFiles({ seed: 1, ...size })
const first = readCatalogue(files)
const second = generateCatalogue({ seed: 2, ...size })

let stand: Stand

beforeAll(async () => {
  stand = await openStand()
})

afterAll(() => stand.close())

const put = () => post(stand, { files }, {}, '/v1/catalogues')
const current = async (): Promise<string> =>
  (await stand.app.inject('/v1/catalogue')).json<{ version: string }>().version

function change(method: 'PUT' | 'PATCH', body: unknown, ifMatch?: string) {
  const headers = { 'content-type': 'application/json', ...(ifMatch === undefined ? {} : { 'if-match': ifMatch }) }
  return stand.app.inject({ method, url: '/v1/catalogues/current', headers, payload: JSON.stringify(body) })
}

interface FaultReply {
  readonly type: string
  readonly status: number
  readonly detail: string
  readonly faults: readonly {
    pointer: string
    rule: string
    file: string
    line: number
    column: string
    value: string
  }[]
}

/** A form as a browser sends it. */
function form(parts: Readonly<Record<string, string | Buffer>>) {
  const boundary = 'x-boundary-of-the-test'
  const pieces = Object.entries(parts).flatMap(([name, content]) => [
    Buffer.from(
      `--${boundary}\r\ncontent-disposition: form-data; name="table"; filename="${name}"\r\ncontent-type: text/csv\r\n\r\n`,
    ),
    Buffer.from(content as string),
    Buffer.from('\r\n'),
  ])
  const payload = Buffer.concat([...pieces, Buffer.from(`--${boundary}--\r\n`)])
  const headers = { 'content-type': `multipart/form-data; boundary=${boundary}` }
  return stand.app.inject({ method: 'POST', url: '/v1/catalogues', headers, payload })
}

describe('a whole catalogue', () => {
  it('becomes the one in force, under the hash of what it says, with what is different in words', async () => {
    const before = await current()
    const reply = await put()
    expect(reply.statusCode).toBe(201)
    expect(reply.headers).toMatchObject({ etag: `"${first.version}"`, location: `/v1/catalogues/${first.version}` })
    const body = reply.json<{
      version: string
      replaced: string
      changes: string[]
      changes_total: number
      counts: object
    }>()
    expect(body).toMatchObject({
      version: first.version,
      replaced: before,
      counts: { fans: 6, motors: 8, airframes: 3 },
    })
    expect(body.changes.some((sentence) => sentence.startsWith('new: '))).toBe(true)
    expect(body.changes_total).toBeGreaterThanOrEqual(body.changes.length)
    expect(await current()).toBe(first.version)
  })

  it('is the same whether it comes as a map of texts, as a form, or as it was read', async () => {
    await put()
    expect((await form(files)).statusCode).toBe(200)
    const read = await stand.app.inject(`/v1/catalogues/${first.version}`)
    expect((await post(stand, read.body, {}, '/v1/catalogues')).statusCode).toBe(200)
    expect(await current()).toBe(first.version)
  })

  it('says that its prices are old', async () => {
    const old = { ...files, 'catalogue.csv': files['catalogue.csv']!.replace(first.dated, '2020-01-01') }
    const { warnings } = (await post(stand, { files: old }, {}, '/v1/catalogues')).json<{ warnings: string[] }>()
    expect(warnings).toEqual([
      expect.stringMatching(/^All \d+ prices are more than 180 days old on \d{4}-.+: of 2020-01-01/),
    ])
  })
})

describe('a faulty catalogue', () => {
  beforeEach(put)

  it('names file, line, column, rule and value of every fault, and changes nothing', async () => {
    const spoilt = {
      ...files,
      'motors.csv': files['motors.csv']!.split('\n')
        .map((line, i) => (i === 3 ? line.replace(/,EUR$/, ',USD') : line))
        .join('\n'),
      'packs.csv': files['packs.csv']!.replace(/^(pack-[^,]+,)[^,]+,/m, '$1=HYPERLINK(1),'),
      'extra.csv': 'id\n',
    }
    const reply = await post(stand, { files: spoilt }, {}, '/v1/catalogues')
    expect(reply.headers['content-type']).toContain('application/problem+json')
    const problem = reply.json<FaultReply>()
    expect(problem).toMatchObject({ status: 422, type: '/problems#invalid-catalogue' })
    expect(problem.faults.map(({ pointer, file, line, column, rule }) => [pointer, file, line, column, rule])).toEqual([
      ['/files/motors.csv', 'motors.csv', 4, 'currency', 'currency'],
      ['/files/packs.csv', 'packs.csv', 2, 'maker', 'formula'],
      ['/files/extra.csv', 'extra.csv', 0, '', 'unknown-file'],
    ])
    expect(problem.faults[0]).toMatchObject({ value: '"USD"' })
    expect(await current()).toBe(first.version)
  })

  it('in a form: a file in UTF-16 is named', async () => {
    const problem = (
      await form({ ...files, 'fans.csv': Buffer.from(`\uFEFF${files['fans.csv']}`, 'utf16le') })
    ).json<FaultReply>()
    expect(problem.faults).toEqual([expect.objectContaining({ file: 'fans.csv', line: 1, rule: 'encoding' })])
    expect(problem.detail).toContain('UTF-16')
    expect(await current()).toBe(first.version)
  })

  it('of 50 MB is refused unread, with the limit', async () => {
    const reply = await form({ ...files, 'fans.csv': Buffer.alloc(50 * 1024 * 1024, 'a') })
    expect(reply.json()).toMatchObject({
      status: 413,
      type: '/problems#body-too-large',
      detail: expect.stringContaining(String(5 * 1024 * 1024)),
    })
    const one = await form({ ...files, 'fans.csv': Buffer.alloc(3 * 1024 * 1024, 'a') })
    expect(one.json<FaultReply>().faults).toEqual([
      expect.objectContaining({ file: 'fans.csv', rule: 'size', value: '3.0 MiB' }),
    ])
    expect(await current()).toBe(first.version)
  })

  it.each([
    [
      'a file twice',
      '--b\r\ncontent-disposition: form-data; name="a"; filename="x"\r\n\r\n1\r\n--b\r\ncontent-disposition: form-data; name="b"; filename="x"\r\n\r\n2\r\n--b--\r\n',
      'duplicate-file',
    ],
    ['no form at all', 'nothing', 'form'],
    [
      'more parts than there are tables',
      `${Array.from({ length: 40 }, (_, i) => `--b\r\ncontent-disposition: form-data; name="a${i}"\r\n\r\n1\r\n`).join('')}--b--\r\n`,
      'parts',
    ],
  ])('a form with %s is refused', async (_what, payload, rule) => {
    const headers = { 'content-type': 'multipart/form-data; boundary=b' }
    const reply = await stand.app.inject({ method: 'POST', url: '/v1/catalogues', headers, payload })
    expect(reply.json<FaultReply>().faults).toEqual([expect.objectContaining({ rule })])
    expect(reply.statusCode).toBe(422)
  })

  it('lists a thousand faults and counts the others', async () => {
    const [header, row] = files['packs.csv']!.split('\n')
    const many = Array.from({ length: 1500 }, (_, i) => row!.replace(/^[^,]+/, `pack-${i}`).replace(/,EUR$/, ',USD'))
    const spoilt = { ...files, 'packs.csv': [header, ...many, ''].join('\n') }
    const problem = (await post(stand, { files: spoilt }, {}, '/v1/catalogues')).json<FaultReply>()
    expect(problem.faults).toHaveLength(1000)
    expect(problem.detail).toMatch(/^1500 faults; .+ The first 1000 are listed\.$/)
  })
})

describe('a form is taken nowhere else', () => {
  it('as a request', async () => {
    const reply = await stand.app.inject({
      method: 'POST',
      url: '/v1/requests',
      headers: { 'content-type': 'multipart/form-data; boundary=b' },
      payload: '--b--\r\n',
    })
    expect(reply.statusCode).toBe(415)
  })
})

describe('a change of what is in force', () => {
  beforeEach(put)

  const fan = first.fans[0]!
  const dearer = { prices: { [fan.part.id]: fan.price + 12 } }

  it('needs the tag of what it changes', async () => {
    for (const method of ['PUT', 'PATCH'] as const) {
      const reply = await change(method, method === 'PUT' ? { files } : dearer)
      expect(reply.json()).toMatchObject({ status: 428, type: '/problems#condition-required' })
    }
    expect(await current()).toBe(first.version)
  })

  it.each([
    ['another version', `"${'0'.repeat(64)}"`],
    ['a weak tag', `W/"${first.version}"`],
    ['no tag', first.version],
  ])('with %s is refused', async (_what, tag) => {
    const reply = await change('PATCH', dearer, tag)
    expect(reply.json()).toMatchObject({
      status: 412,
      type: '/problems#changed-meanwhile',
      detail: expect.stringContaining(first.version),
    })
    expect(await current()).toBe(first.version)
  })

  it('of a price becomes a version of its own, and the old one stays readable', async () => {
    const reply = await change('PATCH', dearer, `"${first.version}"`)
    expect(reply.statusCode).toBe(201)
    const { version, changes } = reply.json<{ version: string; changes: string[] }>()
    expect(changes).toEqual([expect.stringMatching(new RegExp(`^${fan.name} is 12 EUR dearer \\(`))])
    expect(await current()).toBe(version)
    expect((await stand.app.inject(`/v1/catalogues/${first.version}`)).body).toBe(catalogueContent(first))
  })

  it('by nothing is none', async () => {
    const reply = await change('PATCH', {}, `"${first.version}"`)
    expect([reply.statusCode, reply.json<{ changes: string[] }>().changes]).toEqual([200, []])
  })

  it('that is faulty points at each fault, and changes nothing', async () => {
    const reply = await change(
      'PATCH',
      { ...dearer, remove: ['nobody'], rows: { packs: [{ id: 'p' }] } },
      `"${first.version}"`,
    )
    const { faults, status } = reply.json<FaultReply>()
    expect(status).toBe(422)
    expect(faults).toContainEqual(
      expect.objectContaining({ pointer: '/remove/0', rule: 'unknown-part', value: 'nobody' }),
    )
    expect(faults).toContainEqual(
      expect.objectContaining({ pointer: '/rows/packs/0/mass_g', rule: 'required', file: 'packs.csv' }),
    )
    expect(await current()).toBe(first.version)
  })

  it('of two at once with the same tag only one is taken', async () => {
    const prices = Array.from({ length: 6 }, (_, i) => ({ prices: { [fan.part.id]: 200 + i } }))
    const replies = await Promise.all(prices.map((patch) => change('PATCH', patch, `"${first.version}"`)))
    expect(replies.map(({ statusCode }) => statusCode).toSorted()).toEqual([201, 412, 412, 412, 412, 412])
  })

  it('whole, with the tag, replaces it', async () => {
    const reply = await change('PUT', JSON.parse(catalogueContent(second)), `"${'1'.repeat(64)}", "${first.version}"`)
    expect([reply.statusCode, await current()]).toEqual([201, second.version])
  })
})

describe('versions', () => {
  beforeAll(async () => {
    await put()
    await post(stand, catalogueContent(second), {}, '/v1/catalogues')
  })

  interface Listed {
    readonly catalogues: readonly {
      version: string
      name: string
      origin: string
      created: string
      size_bytes: number
      current: boolean
    }[]
    readonly next: string | null
  }

  it('are listed page by page, each once, with name, time and size', async () => {
    const all = (await stand.app.inject('/v1/catalogues?limit=100')).json<Listed>()
    expect(all.next).toBeNull()
    const found: string[] = []
    for (let after: string | null = ''; after !== null; ) {
      const query: string = after === '' ? '' : `&after=${after}`
      const page: Listed = (await stand.app.inject(`/v1/catalogues?limit=2${query}`)).json<Listed>()
      expect(page.catalogues.length).toBeLessThanOrEqual(2)
      found.push(...page.catalogues.map(({ version }) => version))
      after = page.next
    }
    expect(found).toEqual(all.catalogues.map(({ version }) => version))
    expect(new Set(found).size).toBe(found.length)
    expect(found.length).toBeGreaterThan(4)
    expect(all.catalogues.filter((row) => row.current).map((row) => row.version)).toEqual([second.version])
    const row = all.catalogues.find(({ version }) => version === first.version)
    expect(row).toMatchObject({
      name: first.name,
      origin: 'upload',
      size_bytes: Buffer.byteLength(catalogueContent(first)),
    })
    expect(all.catalogues.find(({ version }) => version === stand.catalogue.version)?.origin).toBe('start')
  })

  it.each(['limit=0', 'limit=101', 'after=nonsense', 'after=MjAyNi0wMS0wMSAx'])('refuse the page %s', async (query) => {
    expect((await stand.app.inject(`/v1/catalogues?${query}`)).json()).toMatchObject({
      status: 400,
      type: '/problems#invalid-query',
    })
  })

  it('are sent once, byte for byte, and not again to whom has them', async () => {
    for (const name of [second.version, 'current']) {
      const reply = await stand.app.inject(`/v1/catalogues/${name}`)
      expect(reply.body).toBe(catalogueContent(second))
      expect(reply.headers['etag']).toBe(`"${second.version}"`)
      const headers = { 'if-none-match': String(reply.headers['etag']) }
      expect((await stand.app.inject({ url: `/v1/catalogues/${name}`, headers })).statusCode).toBe(304)
    }
  })

  it('are compared in words and row by row', async () => {
    const url = `/v1/catalogues/${first.version}/diff/current`
    const reply = await stand.app.inject(url)
    const body = reply.json<{ words: string[]; parts: { kind: string; columns: object[] }[]; catalogue: object[] }>()
    expect(body).toMatchObject({ before: { version: first.version }, after: { version: second.version } })
    expect(body.words).toHaveLength(body.parts.length + body.catalogue.length)
    expect(body.words.length).toBeGreaterThan(3)
    expect(JSON.stringify(body)).not.toContain('"part"')
    const headers = { 'if-none-match': String(reply.headers['etag']) }
    expect((await stand.app.inject({ url, headers })).statusCode).toBe(304)
    const same = await stand.app.inject(`/v1/catalogues/${first.version}/diff/${first.version}`)
    expect(same.json()).toMatchObject({ words: [], parts: [], catalogue: [] })
  })

  it.each(['x', '0'.repeat(64), '..', '%00', "'; drop table requests; --"])(
    'nobody has are not found: %s',
    async (name) => {
      for (const url of [
        `/v1/catalogues/${encodeURIComponent(name)}`,
        `/v1/catalogues/current/diff/${encodeURIComponent(name)}`,
      ])
        expect((await stand.app.inject(url)).statusCode).toBe(404)
    },
  )
})
