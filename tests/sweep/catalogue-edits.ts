// Edits of a catalogue as its keepers make them, drawn at random: a part gone, a part added, a copy of one, another price,
// another property, several at once, none.
import type { Catalogue, Listed } from '@ductwright/catalogue/catalogue'
import { sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import { generateCatalogue } from '@ductwright/catalogue/generate/generate-catalogue'
import type { RandomStream } from '@ductwright/catalogue/generate/random'

const KINDS = ['fans', 'motors', 'escs', 'packs'] as const
type Kind = (typeof KINDS)[number]
type Entry = Listed<{ readonly id: string }>
type Draft = Omit<Catalogue, 'version'>

const EDITS = { gone, added, copied, priced, changed, supply, setPrice } as const
export type Edit = keyof typeof EDITS | 'none' | 'several'
const USUAL: readonly Edit[] = ['gone', 'added', 'copied', 'priced', 'priced', 'changed', 'supply', 'setPrice']

/** What a random edit did, and the catalogue after it. `liked`: parts that are hit more often than others. */
export function editedCatalogue(
  catalogue: Catalogue,
  random: RandomStream,
  liked: ReadonlySet<string> = new Set(),
): { readonly edit: Edit; readonly catalogue: Catalogue } {
  const share = random.share()
  if (share < 0.04) return { edit: 'none', catalogue }
  const edits = share < 0.25 ? random.whole(2, 4) : 1
  let [draft, edit]: [Draft, Edit] = [catalogue, 'none']
  for (let i = 0; i < edits; i++) {
    edit = random.pick(USUAL)
    draft = EDITS[edit as keyof typeof EDITS](draft, random, liked)
  }
  return { edit: edits > 1 ? 'several' : edit, catalogue: sealCatalogue(draft) }
}

function picked(draft: Draft, random: RandomStream, liked: ReadonlySet<string>): [Kind, Entry] {
  const kind = random.pick(KINDS)
  const entries: readonly Entry[] = draft[kind]
  const hit = entries.filter(({ part }) => liked.has(part.id))
  return [kind, random.pick(hit.length > 0 && random.share() < 0.6 ? hit : entries)]
}

function replaced(draft: Draft, kind: Kind, old: Entry, now: readonly Entry[]): Draft {
  const entries: readonly Entry[] = draft[kind]
  return { ...draft, [kind]: entries.flatMap((entry) => (entry === old ? now : [entry])) }
}

/** The last of a kind stays: a request with nothing to choose from is refused before any sweep. */
function gone(draft: Draft, random: RandomStream, liked: ReadonlySet<string>): Draft {
  const [kind, entry] = picked(draft, random, liked)
  if (draft[kind].length === 1) return draft
  const sets = draft.sets.filter(({ fanId, motorId }) => fanId !== entry.part.id && motorId !== entry.part.id)
  return { ...replaced(draft, kind, entry, []), sets }
}

/** A part of another generated catalogue, its id anywhere among the others. */
function added(draft: Draft, random: RandomStream): Draft {
  const seed = random.whole(1, 1_000_000)
  const other = generateCatalogue({ seed, fans: 3, motors: 3, escs: 3, packs: 3, airframes: 1 })
  const kind = random.pick(KINDS)
  const entry = random.pick<Entry>(other[kind])
  return { ...draft, [kind]: [...draft[kind], renamed(entry, random)] }
}

/** Equal to another in all but its id: every setup of it ties with one of the other. */
function copied(draft: Draft, random: RandomStream, liked: ReadonlySet<string>): Draft {
  const [kind, entry] = picked(draft, random, liked)
  return { ...draft, [kind]: [...draft[kind], renamed(entry, random)] }
}

function renamed(entry: Entry, random: RandomStream): Entry {
  const letter = String.fromCharCode(97 + random.whole(0, 25))
  return { ...entry, part: { ...entry.part, id: `${letter}-${random.whole(0, 1e9)}` } }
}

function priced(draft: Draft, random: RandomStream, liked: ReadonlySet<string>): Draft {
  const [kind, entry] = picked(draft, random, liked)
  const price = Math.round(entry.price * random.pick([0.3, 0.8, 0.97, 1.02, 1.2, 3]) * 100) / 100
  return replaced(draft, kind, entry, [{ ...entry, price }])
}

/** One figure of a part moves a little or much; whole numbers (cells, poles) stay. */
function changed(draft: Draft, random: RandomStream, liked: ReadonlySet<string>): Draft {
  const [kind, entry] = picked(draft, random, liked)
  const part = entry.part as Record<string, unknown>
  const figures = Object.keys(part).filter((key) => typeof part[key] === 'number' && !Number.isInteger(part[key]))
  const figure = random.pick(['mass', ...figures])
  const value = (part[figure] as number) * random.pick([0.8, 0.99, 1.01, 1.2])
  return replaced(draft, kind, entry, [{ ...entry, part: { ...part, [figure]: value } as Entry['part'] }])
}

function supply(draft: Draft, random: RandomStream): Draft {
  const { receiverSupply } = draft
  const field = random.pick(['price', 'mass'] as const)
  return { ...draft, receiverSupply: { ...receiverSupply, [field]: receiverSupply[field] * random.pick([0.5, 1.5]) } }
}

function setPrice(draft: Draft, random: RandomStream): Draft {
  if (draft.sets.length === 0) return draft
  const set = random.pick(draft.sets)
  const now = { ...set, price: set.price * random.pick([0.5, 0.9, 1.1, 2]) }
  return { ...draft, sets: draft.sets.map((other) => (other === set ? now : other)) }
}
