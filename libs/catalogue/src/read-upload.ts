// A whole catalogue as it is sent: files as bytes, or JSON, either a map of file → text or the canonical JSON that a
// version is read as. Sizes are judged before anything is decoded.
import { canonicalJson } from './canonical-json.js'
import type { Catalogue } from './catalogue.js'
import { CatalogueError, type CatalogueFault } from './catalogue-fault.js'
import { escaped, isRecord, jsonFault } from './json-rows.js'
import { readCatalogue } from './read-catalogue.js'
import { readContent } from './read-content.js'
import { sizeFaults, tableText } from './upload-limits.js'

/**
 * The catalogue of a set of files, file name → bytes.
 * @throws CatalogueError with all faults
 */
export function readCatalogueBytes(files: ReadonlyMap<string, Uint8Array>): Catalogue {
  const entries = [...files]
  refuseLarge(entries.map(([name, bytes]) => [name, bytes.length]))
  return readCatalogue(Object.fromEntries(entries.map(([name, bytes]) => [name, tableText(bytes)])))
}

/**
 * The catalogue of a JSON value: { files: { "fans.csv": "…", … } }, or what `catalogueContent` wrote.
 * @throws CatalogueError with all faults
 */
export function readCatalogueJson(json: unknown): Catalogue {
  const object = isRecord(json) ? json : {}
  if ('files' in object) return readTexts(object)
  if ('format' in object && 'version' in object) return readContent(canonicalJson(object))
  const message = 'must hold "files" (file name → text of the table), or be a catalogue as it was read from a service'
  throw new CatalogueError([jsonFault({ list: 'catalogue', pointer: '' }, '', 'form', undefined, message)])
}

function readTexts(object: Readonly<Record<string, unknown>>): Catalogue {
  const { files } = object
  const entries = isRecord(files) ? Object.entries(files) : []
  const texts = entries.filter((entry): entry is [string, string] => typeof entry[1] === 'string')
  const faults = [
    ...Object.keys(object)
      .filter((key) => key !== 'files')
      .map((key) => formFault(`/${escaped(key)}`, 'unknown-field', 'cannot stand beside "files"')),
    ...(isRecord(files) ? [] : [formFault('/files', 'type', 'must be an object: file name → text of the table')]),
    ...entries
      .filter(([, text]) => typeof text !== 'string')
      .map(([name]) => formFault(`/files/${escaped(name)}`, 'type', 'must be the text of the table')),
  ]
  if (faults.length > 0) throw new CatalogueError(faults)
  refuseLarge(texts.map(([name, text]) => [name, Buffer.byteLength(text, 'utf8')]))
  return readCatalogue(Object.fromEntries(texts))
}

function formFault(pointer: string, rule: string, message: string): CatalogueFault {
  return jsonFault({ list: 'catalogue', pointer }, '', rule, undefined, message)
}

function refuseLarge(sizes: readonly (readonly [string, number])[]): void {
  const large = sizeFaults(Object.fromEntries(sizes))
  if (large.length > 0) throw new CatalogueError(large)
}
