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

  it('keeps what is not known as null', () => {
    const stated = catalogueFromContent(content).airframes.find(({ part }) => part.structure === null)
    const computed = catalogueFromContent(content).airframes.find(({ part }) => part.designSpeed === null)
    expect(stated?.part.dragGeometry).toBeNull()
    expect(stated?.part.designSpeed).toBeGreaterThan(0)
    expect(computed?.part.structure?.controls.map(({ name }) => name)).toEqual(['aileron', 'elevator'])
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
    ['another format', content.replace('ductwright-catalogue/2', 'ductwright-catalogue/1')],
    ['text that is not JSON', content.slice(0, -1)],
    ['a changed stiffness', content.replace(/"torsionalStiffness":[\d.]+/, '"torsionalStiffness":999')],
    ['a changed drag geometry', content.replace(/"flatFaces":[\d.]+/, '"flatFaces":0')],
    ['a changed treatment', content.replace(/"hours":[\d.]+/, '"hours":1')],
    ['a list', '[]'],
    ['null', 'null'],
  ])('%s is refused', (_name, text) => {
    expect(text).not.toBe(content)
    expect(() => catalogueFromContent(text)).toThrow(RangeError)
  })
})
