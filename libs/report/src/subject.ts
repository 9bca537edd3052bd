// The subject line of the answer: the answer itself, on one line, short enough for a telephone's list.

import { figure, money, speedOf } from '@ductwright/contract/figures'
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
  if (choice === undefined) return `${refusal(result)}: ${nearestWords(result)}`
  const { raw, setup } = choice.member
  const speed = figure('speed', raw.speed_km_h)
  if (result.outcome !== 'reached') return `${refusal(result)}: ${speed} at most, for ${money(raw.cost, currency)}`
  const parts = `${partName(result.names, setup.fan)} with ${partName(result.names, setup.motor)}`
  return `${speed} for ${money(raw.cost, currency)}: ${parts} in ${inert(result.airframe.name, 40)}`
}

/** A no with what is in its way, as the headline names it. */
function refusal({ understood, headline }: Result): string {
  const blamed = /^Not (with this [a-z -]{1,40}):/.exec(headline)?.[1] ?? 'with this airframe'
  return `Not ${speedOf(understood.target.speed)} ${blamed}`
}

/** What could be had instead; where that is not known, what stops it. */
function nearestWords(result: Result): string {
  const slower = result.relaxations.find(({ relax }) => relax === 'target')
  return slower === undefined ? whatStops(result) : `${figure('speed', slower.raw.speed_km_h)} at most`
}
