// A sweep again after one part of its catalogue changed: whole, against from the certificate of the sweep before. Parts are
// taken from the middle of those that are in some member of the front, and of those that are in none. Run alone it prints its
// own table.
import { sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import { placesOf } from '@ductwright/models/sweep/combination-number'
import { certifyShard, evaluateShard } from '@ductwright/models/sweep/evaluate-shard'
import { searchChange } from '@ductwright/models/sweep/search-change'
import { splitPlan } from '@ductwright/models/sweep/shards'
import { prepare } from '@ductwright/pipeline/prepare'
import { measure } from './measure.mjs'
import { changeSection } from './page.mjs'
import { marketName, preparedQuestion } from './questions.mjs'

const ASKED = ['demo, narrowed', marketName('medium', 9)]
const KINDS = { fan: 'fans', motor: 'motors', controller: 'escs', pack: 'packs' }
const PLACES = { fan: 'fan', motor: 'motor', controller: 'esc', pack: 'pack' }
const CHEAPER = 0.95
const DEARER = 1.05
const hooks = { progress() {}, settled() {}, cancelled: () => false }

/** One row a question, kind of part and change, all on one thread. */
export async function measureChanges(quick) {
  const rows = []
  for (const name of quick ? ASKED.slice(0, 1) : ASKED) {
    const prepared = await preparedQuestion(name)
    const whole = certified(prepared)
    for (const kind of Object.keys(KINDS)) {
      for (const change of changesOf(kind, prepared, partsInMembers(whole, kind))) {
        rows.push({ name, kind, ...(await changed(prepared, whole, change, quick)) })
      }
    }
  }
  return rows
}

async function changed({ request, catalogue }, base, { what, before, after }, quick) {
  const timing = { warmUps: 1, runs: quick ? 1 : 3 }
  const old = before === null ? base : certified(prepare(request, before))
  const now = prepare(request, after ?? catalogue)
  const preparing = await measure(() => prepare(request, after ?? catalogue).plan.nodes.length, timing)
  const full = await measure(() => searched(now).boxes, timing)
  const again = await measure(() => searchChange(old, now, hooks).front.boxes, timing)
  const [found, whole] = [searchChange(old, now, hooks).front, searched(now)]
  if (JSON.stringify(found.members) !== JSON.stringify(whole.members)) throw new Error(`${what}: another front`)
  return {
    what,
    fullBoxes: whole.boxes,
    boxes: found.boxes,
    preparing: preparing.least,
    full: full.least,
    again: again.least,
  }
}

/** `before` null: the catalogue as it is; `after` null: the same. */
function changesOf(kind, { catalogue }, inMembers) {
  const list = catalogue[KINDS[kind]]
  const [member, other] = [true, false].map((wanted) =>
    middle(list.filter(({ part }) => inMembers.has(part.id) === wanted)),
  )
  return [
    ...(other === undefined
      ? []
      : [{ what: '5 % cheaper, in no member', before: null, after: priced(catalogue, kind, other, CHEAPER) }]),
    { what: '5 % cheaper, in a member', before: null, after: priced(catalogue, kind, member, CHEAPER) },
    { what: '5 % dearer, in a member', before: null, after: priced(catalogue, kind, member, DEARER) },
    { what: 'new, then in a member', before: without(catalogue, kind, member), after: null },
    { what: 'gone, in a member', before: null, after: without(catalogue, kind, member) },
  ]
}

function priced(catalogue, kind, entry, factor) {
  const list = catalogue[KINDS[kind]].map((other) =>
    other === entry ? { ...entry, price: entry.price * factor } : other,
  )
  return sealCatalogue({ ...catalogue, [KINDS[kind]]: list })
}

function without(catalogue, kind, entry) {
  const list = catalogue[KINDS[kind]].filter((other) => other !== entry)
  const sets = catalogue.sets.filter(({ fanId, motorId }) => fanId !== entry.part.id && motorId !== entry.part.id)
  return sealCatalogue({ ...catalogue, [KINDS[kind]]: list, sets })
}

function partsInMembers({ problem, plan, members }, kind) {
  const place = PLACES[kind]
  const ids = members.map(({ number }) => {
    const { node, unit } = placesOf(problem, plan, number)
    return problem.candidates[KINDS[kind]][{ ...plan.nodes[node], ...plan.units[unit] }[place]].id
  })
  return new Set(ids)
}

function middle(list) {
  return list[list.length >> 1]
}

function searched({ problem, plan }) {
  const [range] = splitPlan(plan, 1)
  return evaluateShard(problem, plan, range, hooks)
}

function certified({ problem, plan }) {
  const [range] = splitPlan(plan, 1)
  const { front, certificate } = certifyShard(problem, plan, range, hooks)
  return { problem, plan, members: front.members, certificate }
}

if (process.argv[1] === new URL(import.meta.url).pathname) {
  const rows = await measureChanges(process.argv.includes('--quick'))
  process.stdout.write(`${changeSection(rows).join('\n')}\n`)
}
