/** A calculation that is done when its value is first asked for, and not again. */
export function once<Value>(work: () => Value): () => Value {
  let done: { readonly value: Value } | null = null
  return () => {
    done ??= { value: work() }
    return done.value
  }
}
