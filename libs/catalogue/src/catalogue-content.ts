// A catalogue as one canonical JSON text, to be stored, compared and handed to a worker. Its version is the SHA-256 of
// everything in it but the version itself, so it depends on what the tables say and not on how they were written.
import { byCodeUnit, canonicalJson, sha256Hex } from './canonical-json.js'
import type { Catalogue } from './catalogue.js'

const FORMAT = 'ductwright-catalogue/2'

/** Sorts the lists of a catalogue and gives it its version. */
export function sealCatalogue(catalogue: Omit<Catalogue, 'version'>): Catalogue {
  const sorted = {
    ...catalogue,
    fans: sortedParts(catalogue.fans),
    motors: sortedParts(catalogue.motors),
    escs: sortedParts(catalogue.escs),
    packs: sortedParts(catalogue.packs),
    airframes: sortedParts(catalogue.airframes),
    sets: [...catalogue.sets].sort((a, b) => byCodeUnit(a.id, b.id)),
    treatments: [...catalogue.treatments].sort((a, b) => byCodeUnit(a.kind, b.kind)),
  }
  return { ...sorted, version: versionOf(sorted) }
}

function sortedParts<Entry extends { readonly part: { readonly id: string } }>(parts: readonly Entry[]): Entry[] {
  return [...parts].sort((a, b) => byCodeUnit(a.part.id, b.part.id))
}

function versionOf(catalogue: Omit<Catalogue, 'version'>): string {
  return sha256Hex(canonicalJson({ ...catalogue, format: FORMAT, version: undefined }))
}

/** The canonical text of a catalogue, its version included. */
export function catalogueContent(catalogue: Catalogue): string {
  return canonicalJson({ ...catalogue, format: FORMAT })
}

/**
 * The catalogue of a text that `catalogueContent` wrote.
 * @throws RangeError when it is another format, or when content and version disagree
 */
export function catalogueFromContent(text: string): Catalogue {
  const { format, ...catalogue } = contentObject(text) as Partial<Catalogue> & { format?: unknown }
  if (format !== FORMAT)
    throw new RangeError(
      `catalogue content: format is ${JSON.stringify(format)}, must be "${FORMAT}"; read the tables again`,
    )
  const found = versionOf(catalogue as Catalogue)
  if (found !== catalogue.version)
    throw new RangeError(
      `catalogue content: version is ${JSON.stringify(catalogue.version)} but the content hashes to ${found}; it was changed or damaged`,
    )
  return catalogue as Catalogue
}

function contentObject(text: string): object {
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    throw new RangeError('catalogue content: is not JSON; it was changed or damaged')
  }
  if (typeof value !== 'object' || value === null) throw new RangeError('catalogue content: must be a JSON object')
  return value
}
