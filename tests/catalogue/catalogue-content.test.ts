// A catalogue survives being stored as text, and a changed text is noticed.
import { catalogueContent, catalogueFromContent } from '@ductwright/catalogue/catalogue-content'
import { readCatalogue } from '@ductwright/catalogue/read-catalogue'
import { describe, expect, it } from 'vitest'
import { demoFiles } from './edit-tables.js'

const demo = readCatalogue(demoFiles)
const content = catalogueContent(demo)

describe('catalogueContent', () => {
  it('comes back as the same catalogue and the same text', () => {
    const back = catalogueFromContent(content)
    expect(back).toEqual(demo)
    expect(catalogueContent(back)).toBe(content)
  })

  it.each([
    ['a changed price', content.replace(/"price":\d+/, '"price":1')],
    [
      'a changed version',
      content.replace(
        demo.version,
        demo.version.replace(/^./, (digit) => (digit === '0' ? '1' : '0')),
      ),
    ],
    ['another format', content.replace('ductwright-catalogue/1', 'ductwright-catalogue/9')],
    ['text that is not JSON', content.slice(0, -1)],
    ['a list', '[]'],
    ['null', 'null'],
  ])('%s is refused', (_name, text) => {
    expect(text).not.toBe(content)
    expect(() => catalogueFromContent(text)).toThrow(RangeError)
  })
})
