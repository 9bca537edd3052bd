// The question that is measured: one airframe of the demonstration catalogue, every part, and a fixed sample of the fan
// and motor pairs, so that working everything through stays a matter of seconds. Threads ask it again by themselves.
import { demoCatalogueFolder, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { parseRequest } from '@ductwright/contract/parse-request'
import { prepare } from '@ductwright/pipeline/prepare'

export const AIRFRAME = 'airframe-vintra-90'
export const TARGET_KM_H = 340

export async function preparedQuestion() {
  const catalogue = await readCatalogueFolder(demoCatalogueFolder)
  const request = { target: { speed_km_h: TARGET_KM_H }, airframe: { id: AIRFRAME }, budget: '1200 EUR' }
  return prepare(parseRequest(request), catalogue)
}

/** The plan with `count` of its nodes, evenly spread. */
export function sampledPlan(plan, count) {
  const step = plan.nodes.length / Math.min(count, plan.nodes.length)
  const chosen = Array.from({ length: Math.min(count, plan.nodes.length) }, (_, i) => Math.floor(i * step))
  return {
    ...plan,
    nodes: chosen.map((i) => plan.nodes[i]),
    unitsOfNode: chosen.map((i) => plan.unitsOfNode[i]),
  }
}

/** Combinations of a plan, duties included. */
export function combinationsOf(plan, problem) {
  return plan.unitsOfNode.reduce((sum, units) => sum + units, 0) * problem.candidates.duties.length
}
