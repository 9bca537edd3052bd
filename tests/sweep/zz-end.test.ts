import { appendFileSync } from 'node:fs'
import { Evaluator } from '@ductwright/models/evaluation/evaluator'
import { evaluateShard, workThroughShard } from '@ductwright/models/sweep/evaluate-shard'
import { partsOf, planSweep } from '@ductwright/models/sweep/plan'
import { Bounds } from '@ductwright/models/sweep/bounds'
import { LimitJudge } from '@ductwright/models/evaluation/limit-judge'
import { LIMITS } from '@ductwright/models/evaluation/limits'
import { splitPlan } from '@ductwright/models/sweep/shards'
import { it } from 'vitest'
import { prepare } from '@ductwright/pipeline/prepare'
import { parseRequest } from '@ductwright/contract/parse-request'
import { quiet, randomSweep } from './random-sweeps.js'
it('end', () => {
  let shown = 0
  for (let seed = 5000; seed < 5150 && shown < 5; seed++) {
    const { catalogue, request } = randomSweep(seed)
    const duties = [0.9999, 1]
    const r = { ...request, sweep: { ...(request as any).sweep, duties, resolution: { speed_km_h: 0, flight_time_s: 0, cost: 0, margin: 0 } } }
    const { problem, plan } = prepare(parseRequest(r), catalogue)
    const [range] = splitPlan(plan, 1)
    const member: any = workThroughShard(problem, plan, range!, quiet).members.find((m: any) => m.number % 2 === 1)
    if (!member) continue
    const cell = Math.floor(member.number / 2)
    const unit = plan.units[cell % plan.units.length]!
    const k = problem.candidates, e = unit.esc, p = unit.pack
    const candidates = { ...k, escs: [{ ...k.escs[e]!, timings: [k.escs[e]!.timings[unit.timing]!] }], escMass: [k.escMass[e]!], escCost: [k.escCost[e]!], packs: [k.packs[p]!], packCost: k.packCost.slice(2 * p, 2 * p + 2), arrangements: [k.arrangements[unit.arrangement]!] }
    const one = { ...problem, candidates }
    const plan1 = planSweep(one)
    const node = plan.nodes[Math.floor(cell / plan.units.length)]!
    const n1 = plan1.nodes.findIndex((n) => n.fan === node.fan && n.motor === node.motor && n.nozzle === node.nozzle)
    const ev = new Evaluator(problem.circumstances, { thorough: true })
    const time = (d: number) => { ev.assemble(partsOf(one, plan1.nodes[n1]!, plan1.units[0]!)); ev.evaluate(d); return ev.time }
    const [a, b] = [time(0.9999), time(1)]
    if (!(a < b)) continue
    const p2 = { ...one, circumstances: { ...one.circumstances, limits: { ...one.circumstances.limits, flightTime: (a + b) / 2 } } }
    const e2 = new Evaluator(p2.circumstances)
    const holds = e2.assemble(partsOf(p2, plan1.nodes[n1]!, plan1.units[0]!)) && e2.evaluate(1) && e2.limits.broken < 0
    const has = (f: any) => f.members.some((m: any) => m.number === n1 * 2 + 1)
    const [r1] = splitPlan(plan1, 1)
    appendFileSync('/tmp/end.txt', JSON.stringify({ seed, a, b, holds, search: has(evaluateShard(p2, plan1, r1!, quiet)), brute: has(workThroughShard(p2, plan1, r1!, quiet)) }) + '\n')
    shown++
  }
})
it('mass', () => {
  let shown = 0, tried = 0, wrong = 0
  for (let seed = 5000; seed < 5150; seed++) {
    const { problem, plan } = randomSweep(seed).prepared
    if (problem.circumstances.mass.fixed !== null) continue
    for (const box of plan.boxes.filter((b) => b.count === 1)) {
      const node = plan.nodes[(box.id * 7) % plan.nodes.length]
      if (!node || box.best.source.cells > problem.candidates.motors[node.motor]!.cellsMax) continue
      const parts = partsOf(problem, node, plan.units[box.unit]!)
      const ev = new Evaluator(problem.circumstances, { thorough: true })
      ev.assemble(parts)
      if (!ev.evaluate(1)) continue
      const p = ev.pressureShare
      if (!(p > ev.bendingShare * 1.01 && p > ev.mountShare * 1.01) || p >= 1) continue
      if (ev.fastest > ev.topFull.speed) continue
      const over = 0.08, limit = ev.mass / (1 + over)
      const c = { ...problem.circumstances, mass: { limit, fixed: null }, limits: { ...problem.circumstances.limits, margin: 1 - p * (1 + 1e-6) } }
      const bounds = new Bounds({ ...problem, circumstances: c }, new LimitJudge(c.limits.headroom, false), true)
      bounds.take(node, box); bounds.boundRest(1)
      tried++
      const judge = new Evaluator(c, { thorough: true }); judge.assemble(parts); judge.evaluate(1)
      const really = LIMITS.filter((_, i) => judge.limits.used[i]! > judge.limits.allowed[i]!)
      const noted = LIMITS.filter((_, i) => (bounds.broken >> i) & 1)
      if (noted.some((n) => !really.includes(n))) wrong++
      if (shown++ < 4) appendFileSync('/tmp/end.txt', JSON.stringify({ seed, box: box.id, p, margin: bounds.margin, noted, really, mass: ev.mass, ballast: ev.balance.ballast }) + '\n')
    }
  }
  appendFileSync('/tmp/end.txt', JSON.stringify({ tried, wrong }) + '\n')
})
