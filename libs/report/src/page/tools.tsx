// The parts of the page that need its script: the lines with their spans, and the form for own numbers. Hidden until the
// script shows them, so that without it nothing stands there that does not work.
import { inert } from '@ductwright/contract/inert'

export function LinesTool() {
  return (
    <div data-tool="lines" class="tool" hidden>
      <p>
        One line a setup; better is up on every axis. Drag along an axis to keep what crosses it there, click it to let
        go, or type the ends below. The table follows.
      </p>
      <div id="lines" aria-hidden="true" />
      <div id="spans" />
      <p class="bar">
        <output id="kept" aria-live="polite" />{' '}
        <button type="button" id="reset">
          Show all
        </button>
      </p>
    </div>
  )
}

export function CompareTool({ currency }: { readonly currency: string }) {
  return (
    <section data-tool="own" class="tool" id="own" hidden>
      <h2>Why not mine?</h2>
      <p>Four numbers of a setup you have in mind, against every setup of the list.</p>
      <form id="own-numbers">
        <NumberField name="speed" label="Speed, km/h" />
        <NumberField name="time" label="Flight time, min" />
        <NumberField name="cost" label={`To pay, ${inert(currency, 8)}`} />
        <NumberField name="margin" label="Below the design load, %" />
      </form>
      <output id="own-verdict" aria-live="polite" />
    </section>
  )
}

function NumberField({ name, label }: { readonly name: string; readonly label: string }) {
  return (
    <label>
      {label} <input type="number" step="any" inputMode="decimal" name={name} autoComplete="off" />
    </label>
  )
}
