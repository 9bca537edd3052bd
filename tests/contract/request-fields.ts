// The fields of a request as rows of the reference page, read from the published schema.
import { schemasByName } from '@ductwright/contract/json-schema'

interface Field {
  readonly properties?: Readonly<Record<string, Field>>
  readonly required?: readonly string[]
  readonly anyOf?: readonly Field[]
  readonly default?: unknown
  readonly description?: string
}

function defaultWords(name: string, field: Field, parent: Field): string {
  if (parent.required?.includes(name)) return 'required'
  return field.default === undefined ? '–' : `\`${JSON.stringify(field.default)}\``
}

/** Fields inside a field; an airframe in full is described by the catalogue's own table. */
function inside(name: string, field: Field): Field | undefined {
  if (name === 'given') return undefined
  return field.properties ? field : field.anyOf?.find((choice) => choice.properties)
}

function rows(parent: Field, path: string): string[] {
  return Object.entries(parent.properties ?? {}).flatMap(([name, field]) => {
    const here = path === '' ? name : `${path}.${name}`
    const deeper = inside(name, field)
    const meaning = field.description ?? field.anyOf?.[0]?.description ?? ''
    const own = `| \`${here}\` | ${defaultWords(name, field, parent)} | ${meaning} |`
    return deeper ? [...(name === 'measured' ? [own] : []), ...rows(deeper, here)] : [own]
  })
}

export function requestFieldRows(): string[] {
  return rows(schemasByName('#/')['SweepRequest'] as Field, '')
}
