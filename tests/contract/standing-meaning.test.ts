// What two answers must differ in to be worth a mail.
import { changed, type Meaning } from '@ductwright/contract/standing-meaning'
import { describe, expect, it } from 'vitest'

const setup = (name: string, values: readonly number[] = [300, 240, 500, 0.25], buy = `${name} 1`) => ({
  setup: name,
  buy,
  values,
})

const answer = (changes: Partial<Meaning> = {}): Meaning => ({
  outcome: 'reached',
  front: [setup('a'), setup('b')],
  nearest: [],
  resolution: [2, 5, 5, 0.02],
  ...changes,
})

describe('an answer has changed', () => {
  it.each([
    ['nothing is another', answer(), false],
    ['the outcome is another', answer({ outcome: 'short' }), true],
    ['a setup is gone', answer({ front: [setup('a')] }), true],
    ['a setup is another', answer({ front: [setup('a'), setup('c')] }), true],
    ['the order is another', answer({ front: [setup('b'), setup('a')] }), true],
    ['what is bought for it is another', answer({ front: [setup('a', undefined, 'set 1'), setup('b')] }), true],
    ['a speed moved by the resolution', answer({ front: [setup('a', [302, 240, 500, 0.25]), setup('b')] }), false],
    ['a speed moved by more', answer({ front: [setup('a', [302.1, 240, 500, 0.25]), setup('b')] }), true],
    ['a time moved by more', answer({ front: [setup('a', [300, 246, 500, 0.25]), setup('b')] }), true],
    ['a cost moved by less', answer({ front: [setup('a', [300, 240, 496, 0.25]), setup('b')] }), false],
    ['a cost moved by more', answer({ front: [setup('a', [300, 240, 494, 0.25]), setup('b')] }), true],
    ['a reserve moved by more', answer({ front: [setup('a'), setup('b', [300, 240, 500, 0.22])] }), true],
    ['a figure is no number', answer({ front: [setup('a', [Number.NaN, 240, 500, 0.25]), setup('b')] }), true],
    ['a near miss is another', answer({ nearest: ['c'] }), true],
  ])('when %s: %s', (_what, now, expected) => {
    expect(changed(answer(), now)).toBe(expected)
  })

  it('by anything at all where the resolution is switched off', () => {
    const fine = { resolution: [0, 0, 0, 0] }
    const now = answer({ ...fine, front: [setup('a', [300.001, 240, 500, 0.25]), setup('b')] })
    expect(changed(answer(fine), now)).toBe(true)
    expect(changed(answer(fine), answer(fine))).toBe(false)
  })
})
