// Whether two types accept exactly the same values, apart from `readonly`: what keeps a schema and its interface in step.

type DeepReadonly<Value> = Value extends readonly (infer Entry)[]
  ? readonly DeepReadonly<Entry>[]
  : Value extends object
    ? { readonly [Key in keyof Value]: DeepReadonly<Value[Key]> }
    : Value

type Covers<Wide, Narrow> = [DeepReadonly<Narrow>] extends [DeepReadonly<Wide>] ? true : false

/** `true` when each type can stand for the other; `false` otherwise, which no `true` can be assigned to. */
export type Same<A, B> = [Covers<A, B>, Covers<B, A>] extends [true, true] ? true : false
