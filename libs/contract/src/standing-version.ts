// What an answer depends on besides its question: the catalogue it chose from and the models that worked it out.

export interface RunVersion {
  readonly catalogue: string
  readonly model: string
}

export function sameVersion(one: RunVersion | null, other: RunVersion | null): boolean {
  if (one === null || other === null) return one === other
  return one.catalogue === other.catalogue && one.model === other.model
}
