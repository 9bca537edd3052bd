// The spans of the axes as numbers to type: the way without a pointer, and the exact one. From and to, in the unit of the
// axis; empty means open.
import type { Axis, AxisKey } from './axes.js'
import type { Brush, Span } from './brush.js'

export interface BrushForm {
  show(brush: Brush): void
}

type End = 'low' | 'high'

export function brushForm(
  host: HTMLElement,
  axes: readonly Axis[],
  picked: (key: AxisKey, span: Span | null) => void,
): BrushForm {
  const fields = axes.map((axis) => fieldsOf(axis, picked))
  host.replaceChildren(...fields.map(({ set }) => set))
  return {
    show(brush) {
      for (const { axis, set, low, high } of fields) {
        // Ends that are being typed are left alone.
        if (set.contains(document.activeElement)) continue
        const span = brush.get(axis.key)
        fill(low, axis, span, 'low')
        fill(high, axis, span, 'high')
      }
    },
  }
}

function fieldsOf(axis: Axis, picked: (key: AxisKey, span: Span | null) => void) {
  const set = document.createElement('fieldset')
  const legend = document.createElement('legend')
  legend.textContent = axis.name
  const low = input(axis, 'low')
  const high = input(axis, 'high')
  const read = () => picked(axis.key, spanOf(axis, low.value, high.value))
  low.addEventListener('input', read)
  high.addEventListener('input', read)
  set.append(legend, labelled('from', low), labelled('to', high))
  return { axis, set, low, high }
}

function input({ key }: Axis, end: End): HTMLInputElement {
  const made = document.createElement('input')
  made.type = 'number'
  made.step = key === 'flight_time_s' ? '0.1' : '1'
  made.name = `${key}-${end}`
  return made
}

function labelled(words: string, field: HTMLInputElement): HTMLLabelElement {
  const label = document.createElement('label')
  label.append(words, ' ', field)
  return label
}

/** Two texts as a span in the unit of the data; null when both are empty. */
export function spanOf({ scale }: Pick<Axis, 'scale'>, low: string, high: string): Span | null {
  const value = (text: string, open: number) => (text.trim() === '' ? open : Number(text) / scale)
  const span = { low: value(low, Number.NEGATIVE_INFINITY), high: value(high, Number.POSITIVE_INFINITY) }
  return Number.isFinite(span.low) || Number.isFinite(span.high) ? span : null
}

function fill(field: HTMLInputElement, { scale }: Axis, span: Span | undefined, end: End): void {
  const value = span?.[end] ?? Number.NaN
  field.value = Number.isFinite(value) ? String(Math.round(value * scale * 10) / 10) : ''
}
