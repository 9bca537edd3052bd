// What the pilot has today, and where today, the answer and the target stand against what the airframe allows.

import { bare, belowDesign, duration, figure, reserve } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Member, Result } from '@ductwright/contract/result'
import { allowedSpeed } from './airframe-words.js'
import type { Bar, Block, Pair, Section } from './letter.js'
import { partsLine, settingsLine } from './setup-words.js'

const answerLabel = 'with this setup'

export function nowSection(result: Result, member: Member | undefined): Section {
  const bars: Block = { kind: 'bars', bars: speedBars(result, member) }
  if (result.now === null) return { heading: 'Where that stands', blocks: [bars] }
  return {
    heading: 'What you have now',
    blocks: [
      { kind: 'paragraph', text: inert(result.now.words) },
      bars,
      { kind: 'pairs', pairs: present(result.now, result) },
    ],
  }
}

function speedBars(result: Result, member: Member | undefined): Bar[] {
  const allowed = allowedSpeed(result.airframe)
  const asked = result.understood.target.speed * 3.6
  const marks: [string, number | undefined][] = [
    ['today, measured', result.now?.measured_km_h],
    [answerLabel, member?.raw.speed_km_h],
    ['asked for', asked],
    ['airframe allows at most', allowed?.speed_km_h],
  ]
  const known = marks.flatMap(([label, speed]) => (speed === undefined ? [] : [{ label, speed }]))
  const full = Math.max(...known.map((mark) => mark.speed))
  return known.map(({ label, speed }) => ({
    label,
    share: speed / full,
    shown: figure('speed', speed),
    strong: label === answerLabel,
  }))
}

function present(now: NonNullable<Result['now']>, result: Result): Pair[] {
  const { figures } = now
  return [
    { label: 'Parts', value: partsLine(now.setup, result.names) },
    { label: 'Set to', value: settingsLine(now.setup, figures) },
    { label: 'Drag area from your measurement', value: dragArea(now) },
    {
      label: 'What that gives today',
      value: `${duration(figures.flight_time_s)} of flight, ${belowDesign(figures.margin)}, ${room(figures.headroom)} the nearest limit`,
    },
    { label: 'Drag area used for every setup', value: figure('dragArea', result.airframe.drag_area_m2 * 1e4) },
    { label: 'Holds the speed back today', value: inert(figures.binds, 300) },
  ]
}

/** Room left to the limit that is used most, or how far beyond it. */
function room(headroom: number): string {
  return headroom < 0 ? `${reserve(headroom).replace('−', '')} over` : `${reserve(headroom)} free to`
}

function dragArea(now: NonNullable<Result['now']>): string {
  const low = bare('dragArea', now.drag_area_low_m2 * 1e4)
  return `${figure('dragArea', now.drag_area_m2 * 1e4)}, between ${low} and ${figure('dragArea', now.drag_area_high_m2 * 1e4)}`
}
