// The reference page of requests holds every field with its default and meaning, and every example on it can be read.
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { parseRequest } from '@ductwright/contract/parse-request'
import { describe, expect, it } from 'vitest'
import { requestFieldRows } from './request-fields.js'

const page = readFileSync(fileURLToPath(new URL('../../docs/request.md', import.meta.url)), 'utf8')

describe('docs/request.md', () => {
  it.each(requestFieldRows())('holds the row %s', (row) => {
    expect(page.split('\n')).toContain(row)
  })

  it('names no field that is not there', () => {
    const named = page.split('\n').filter((line) => line.startsWith('| `') && line.endsWith('. |'))
    expect(named).toEqual(requestFieldRows())
  })

  it('shows requests that can be read', () => {
    const examples = [...page.matchAll(/```json\n([\s\S]*?)```/g)].map((match) => match[1] ?? '')
    expect(examples.length).toBeGreaterThan(0)
    for (const example of examples) expect(parseRequest(JSON.parse(example)).target.speed).toBeGreaterThan(0)
  })
})
