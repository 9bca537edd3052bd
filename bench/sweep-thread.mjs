// One thread of a measured sweep: prepares a named question when told to, then searches the shards it is handed.
import { parentPort } from 'node:worker_threads'
import { evaluateShard, planShards } from '@ductwright/pipeline/shards'
import { preparedQuestion } from './questions.mjs'

const hooks = { progress() {}, cancelled: () => false }
let prepared = null
let shards = []

parentPort.on('message', async ({ name, shard }) => {
  if (name !== undefined) {
    prepared = await preparedQuestion(name)
    shards = planShards(prepared)
    parentPort.postMessage(shards.length)
  } else parentPort.postMessage(evaluateShard(prepared, shards[shard], hooks))
})
