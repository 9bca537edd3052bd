// One schema for a row of text cells and for an airframe given in full as JSON.

import { readCatalogue } from '@ductwright/catalogue/read-catalogue'
import { airframeRow } from '@ductwright/catalogue/rows/airframe-row'
import { describe, expect, it } from 'vitest'
import { demoFiles, rowsOf } from './edit-tables.js'

const [header, ...rows] = rowsOf(demoFiles, 'airframes.csv')
const cells = Object.fromEntries(header!.map((name, i) => [name, rows[0]![i]!]))
const json = Object.fromEntries(
  Object.entries(cells).map(([name, cell]) => [
    name,
    cell !== '' && Number.isFinite(Number(cell)) ? Number(cell) : cell,
  ]),
)

describe('airframeRow', () => {
  it('reads text cells and JSON numbers alike', () => {
    const listed = airframeRow.parse(json)
    expect(listed).toEqual(airframeRow.parse(cells))
    expect(readCatalogue(demoFiles).airframes).toContainEqual(listed)
  })

  it('does not need maker, price and currency', () => {
    const { maker: _maker, price: _price, currency: _currency, ...least } = json
    expect(airframeRow.parse(least).part).toEqual(airframeRow.parse(json).part)
    expect(airframeRow.parse(least)).toMatchObject({ maker: 'own build', price: 0 })
  })

  it.each([
    ['an unknown name', { wheel_count: 3 }],
    ['a number out of range', { drag_area_m2: 5 }],
    ['a list for a number', { span_mm: [1100] }],
    ['null for a number', { span_mm: null }],
    ['a true for a number', { span_mm: true }],
    ['infinity', { span_mm: Number.POSITIVE_INFINITY }],
    ['a number for a text', { name: 7 }],
    ['a fan range upside down', { fan_diameter_min_mm: 120, fan_diameter_max_mm: 60 }],
  ])('refuses %s', (_name, change) => {
    expect(airframeRow.safeParse({ ...json, ...change }).success).toBe(false)
  })
})
