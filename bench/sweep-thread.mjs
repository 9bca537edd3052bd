// One thread of a measured sweep: prepares the question once, then sweeps its part of the sample when told to.
import { parentPort, workerData } from 'node:worker_threads'
import { evaluateShard } from '@ductwright/models/sweep/evaluate-shard'
import { splitPlan } from '@ductwright/models/sweep/shards'
import { preparedQuestion, sampledPlan } from './question.mjs'

const { part, size, nodes } = workerData
const { problem, plan } = await preparedQuestion()
const sample = sampledPlan(plan, nodes)
const range = splitPlan(sample, size)[part]
const hooks = { progress() {}, cancelled: () => false }

parentPort.on('message', () => parentPort.postMessage(evaluateShard(problem, sample, range, hooks).feasible))
parentPort.postMessage('ready')
