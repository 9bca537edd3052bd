// The difference between two setups in words: only what moved by more than the resolution the answers were compared at.
import { duration, figure, money } from '@ductwright/contract/figures'
import type { Objectives } from '@ductwright/contract/result'

interface Compared {
  readonly from: Objectives
  readonly to: Objectives
  readonly resolution: Objectives
  readonly currency: string
}

/** Such as "14 km/h slower, 25 EUR dearer"; "no difference that counts" when nothing moved. */
export function differenceWords(compared: Compared): string {
  const { from, to, resolution, currency } = compared
  const words = [
    step(to.speed_km_h - from.speed_km_h, resolution.speed_km_h, ['faster', 'slower'], (by) => figure('speed', by)),
    step(
      to.flight_time_s - from.flight_time_s,
      resolution.flight_time_s,
      ['longer', 'shorter'],
      (by) => `${duration(by)} of flight`,
    ),
    step(to.cost - from.cost, resolution.cost, ['dearer', 'cheaper'], (by) => money(by, currency)),
    step(to.margin - from.margin, resolution.margin, ['more in reserve', 'less in reserve'], (by) =>
      figure('percent', by * 100),
    ),
  ].filter((word) => word !== '')
  return words.length === 0 ? 'no difference that counts' : words.join(', ')
}

function step(
  by: number,
  resolution: number,
  [more, less]: readonly [string, string],
  shown: (by: number) => string,
): string {
  if (!(Math.abs(by) > resolution)) return ''
  return `${shown(Math.abs(by))} ${by > 0 ? more : less}`
}
