// The subject line of the answer: the answer itself, on one line, short enough for a telephone's list.

import { figure, money, speedOf } from '@ductwright/contract/figures'
import { cut, inert } from '@ductwright/contract/inert'
import type { Result } from '@ductwright/contract/result'
import { isBeyond, recommended, whatStops } from './section-opening.js'
import { partName } from './setup-words.js'

const longestSubject = 120

export function answerSubject(result: Result): string {
  return cut(inert(words(result).replace(/\u00a0/g, ' ')), longestSubject)
}

function words(result: Result): string {
  const choice = recommended(result)
  if (choice === undefined) return `Not with this airframe: ${whatStops(result)}`
  const { raw, setup } = choice.member
  const found = `${figure('speed', raw.speed_km_h)} for ${money(raw.cost, result.catalogue.currency)}`
  const parts = `${partName(result.names, setup.fan)}, ${partName(result.names, setup.motor)}`
  const airframe = inert(result.airframe.name, 40)
  if (result.outcome === 'reached') return `${found}: ${parts} in ${airframe}`
  const target = result.understood.target.speed
  const refusal = isBeyond(result) ? 'Not with this airframe' : `Not ${speedOf(target)} in ${airframe}`
  return `${refusal}: ${found} at best, ${whatStops(result)}`
}
