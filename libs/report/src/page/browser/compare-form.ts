// A setup of one's own in four numbers, against the list: which one beats it, or what it stands against.
import type { Objectives } from '@ductwright/contract/result'
import type { PageData } from '../page-data.js'
import { whyNot } from '../why-not.js'
import { whyNotWords } from '../why-not-words.js'

type Texts = Readonly<Record<'speed' | 'time' | 'cost' | 'margin', string>>

/** The four numbers in the units of the data; null while one is missing. */
export function ownObjectives({ speed, time, cost, margin }: Texts): Objectives | null {
  const number = (text: string) => (text.trim() === '' ? Number.NaN : Number(text))
  const own = {
    speed_km_h: number(speed),
    flight_time_s: number(time) * 60,
    cost: number(cost),
    margin: number(margin) / 100,
  }
  return Object.values(own).every(Number.isFinite) ? own : null
}

export function compareForm(form: HTMLFormElement, output: HTMLElement, data: PageData): void {
  const text = (name: string) => {
    const field = form.elements.namedItem(name)
    return field instanceof HTMLInputElement ? field.value : ''
  }
  form.addEventListener('input', () => {
    const own = ownObjectives({ speed: text('speed'), time: text('time'), cost: text('cost'), margin: text('margin') })
    const verdict = own === null ? null : whyNot(data.rows, own, data.comparison)
    output.textContent = verdict === null ? 'All four numbers, please.' : whyNotWords(verdict, data.currency)
  })
}
