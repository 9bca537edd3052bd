// The subject line of the answer: the answer itself, on one line, short enough for a telephone's list.

import { bareSpeed, figure, money, speedOf } from '@ductwright/contract/figures'
import { cut, inert } from '@ductwright/contract/inert'
import type { Result } from '@ductwright/contract/result'
import { recommended, whatStops } from './section-opening.js'
import { partName } from './setup-words.js'

const longestSubject = 120

export function answerSubject(result: Result): string {
  return cut(inert(words(result).replace(/\u00a0/g, ' ')), longestSubject)
}

function words(result: Result): string {
  const { currency } = result.catalogue
  const choice = recommended(result)
  if (result.blamed !== null) {
    const no = `Not ${speedOf(result.understood.target.speed)} with ${inert(result.blamed, 60)}`
    if (choice === undefined) return `${no}: ${nearestWords(result)}`
    const { speed_km_h, cost } = choice.member.raw
    const target = result.understood.target.speed * 3.6
    return `${no}: ${bareSpeed(speed_km_h, target)} km/h at most, for ${money(cost, currency)}`
  }
  if (choice === undefined) throw new RangeError('an answer that blames nothing must list a setup')
  const { raw, setup } = choice.member
  const parts = `${partName(result.names, setup.fan)} with ${partName(result.names, setup.motor)}`
  return `${figure('speed', raw.speed_km_h)} for ${money(raw.cost, currency)}: ${parts} in ${inert(result.airframe.name, 40)}`
}

/** What could be had instead; where that is not known, what stops it. */
function nearestWords(result: Result): string {
  const slower = result.relaxations.find(({ relax }) => relax === 'target')
  return slower === undefined ? whatStops(result) : `${figure('speed', slower.raw.speed_km_h)} at most`
}
