// The owner's wishes: weights and a ranking expression. What an expression means, that its normalised text means the same, and
// what no expression can do.
import { compileExpression, type Expression, expressionText, OPERATORS } from '@ductwright/contract/expression-tree'
import { parseRequest } from '@ductwright/contract/parse-request'
import { RANKING_QUANTITY_NAMES, type RankingFigures } from '@ductwright/contract/ranking-quantities'
import { normalisedExpression, readExpression } from '@ductwright/contract/read-expression'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { broken, faultsOf } from './faults-of.js'
import { withField } from './sample-requests.js'

const figures = Object.fromEntries(RANKING_QUANTITY_NAMES.map((name, i) => [name, 2 + i])) as unknown as RankingFigures
const at = (changes: Partial<RankingFigures>): RankingFigures => ({ ...figures, ...changes })

function worth(text: string, changes: Partial<RankingFigures> = {}): number {
  const reading = readExpression(text)
  if (!reading.ok) throw new Error(reading.faults.map(({ message }) => message).join('; '))
  return compileExpression(reading.expression)(at(changes))
}

const read = (expression: unknown) => parseRequest(withField('wishes.expression', expression)).wishes.expression
const refused = (expression: unknown) => broken(() => read(expression))

describe('an expression', () => {
  it.each([
    ['1 + 2 * 3', 7],
    ['(1 + 2) * 3', 9],
    ['10 - 4 - 3', 3],
    ['24 / 4 / 2', 3],
    ['2 ^ 3 ^ 2', 512],
    ['-2 ^ 2', -4],
    ['2 ^ -2', 0.25],
    ['--3 - -1', 4],
    ['+5', 5],
    ['.5 + 1e2', 100.5],
    ['min(3, 1, 2) + max(4, 9)', 10],
    ['abs(-3) + sqrt(16)', 7],
    ['log(exp(2))', 2],
  ])('%s is %d', (text, value) => {
    expect(worth(text)).toBeCloseTo(value, 12)
  })

  it('names figures of a setup', () => {
    const setup = { speed_km_h: 350, cost: 800, margin: 0.2 }
    expect(worth('speed_km_h - 0.05 * cost', setup)).toBe(310)
    expect(worth('min(speed_km_h, 340) + 100 * margin', setup)).toBe(360)
  })

  it.each(['1 / 0', 'sqrt(0 - 1)', 'log(0)', '0 / 0', 'exp(1e9)'])('%s has no finite value, and says so', (text) => {
    expect(Number.isFinite(worth(text))).toBe(false)
  })

  it('is kept as one text, however it was spaced', () => {
    expect(read('  speed_km_h-0.05*(cost) ')).toBe('speed_km_h - 0.05 * cost')
    expect(read('((2^3))^2-(1-cost)')).toBe('(2^3)^2 - (1 - cost)')
    expect(read(null)).toBeNull()
  })

  const leaf: fc.Arbitrary<Expression> = fc.oneof(
    fc
      .double({ min: 0, max: 1e22, noNaN: true })
      .map((value): Expression => ({ kind: 'number', value: Math.abs(value) })),
    fc.constantFrom(...RANKING_QUANTITY_NAMES).map((name): Expression => ({ kind: 'quantity', name })),
  )
  const { tree } = fc.letrec<{ tree: Expression }>((tie) => ({
    tree: fc.oneof(
      { maxDepth: 5, depthSize: 'small' },
      leaf,
      tie('tree').map((of): Expression => ({ kind: 'negation', of })),
      fc
        .tuple(fc.constantFrom(...OPERATORS), tie('tree'), tie('tree'))
        .map(([operator, left, right]): Expression => ({ kind: 'operation', operator, left, right })),
      fc
        .tuple(fc.constantFrom('min' as const, 'max' as const), tie('tree'), tie('tree'))
        .map(([name, ...values]): Expression => ({ kind: 'call', name, values })),
      fc
        .tuple(fc.constantFrom('abs' as const, 'sqrt' as const, 'log' as const, 'exp' as const), tie('tree'))
        .map(([name, value]): Expression => ({ kind: 'call', name, values: [value] })),
    ),
  }))

  it('reads its own normalised text as the same tree', () => {
    fc.assert(
      fc.property(tree, (expression) => {
        expect(normalisedExpression(expressionText(expression))).toEqual(expression)
      }),
    )
  })

  it('of the longest that may be written is read again from its normalised text', () => {
    for (const text of [
      `${'1e20+'.repeat(99)}1`,
      `${'-'.repeat(150)}cost`,
      `2${'^2'.repeat(90)}`,
      `${'('.repeat(40)}1${')'.repeat(40)}`,
    ]) {
      const normalised = read(text) as string
      expect(expressionText(normalisedExpression(normalised))).toBe(normalised)
    }
  })
})

describe('an expression refuses', () => {
  it.each([
    ['a range', '1:1e8', 'character'],
    ['a matrix', '[1, 2]', 'character'],
    ['a text', '"speed"', 'character'],
    ['an assignment', 'cost = 0', 'character'],
    ['a second statement', 'cost; cost', 'character'],
    ['a condition', 'cost > 1 ? 1 : 2', 'character'],
    ['a factorial', 'cost!', 'character'],
    ['a percent sign', '5 % 3', 'character'],
    ['letters of other alphabets', 'ѕpeed_km_h', 'character'],
    ['a property', 'cost.constructor', 'syntax'],
    ['a method', 'cost.toString()', 'function'],
    ['a method of a function', 'min.constructor(1, 2)', 'function'],
    ['an import', 'import(1)', 'function'],
    ['a function it does not list', 'sin(1)', 'function'],
    ['evaluation', 'evaluate(1)', 'function'],
    ['a constructor', 'constructor(1)', 'function'],
    ['a figure called', 'cost(2)', 'function'],
    ['too many values', 'sqrt(1, 2)', 'function'],
    ['too few values', 'min(1)', 'function'],
    ['the name constructor', 'constructor', 'quantity'],
    ['the name __proto__', '__proto__', 'quantity'],
    ['a function without values', 'min', 'quantity'],
    ['a name of the library', 'pi', 'quantity'],
    ['a unit', 'cm', 'quantity'],
    ['a product without its sign', '2 cost', 'operator'],
    ['a remainder', '5 mod 3', 'operator'],
    ['a logical word', 'not cost', 'operator'],
    ['a conversion', 'cost to margin', 'operator'],
    ['an element-wise product', 'cost .* cost', 'operator'],
    ['a truth value', 'true', 'finite'],
    ['a number too large', '1e999', 'finite'],
    ['not a number', 'NaN', 'finite'],
    ['an open parenthesis', '(cost', 'syntax'],
    ['an operator at the end', 'cost +', 'syntax'],
    ['nothing', '  ', 'length'],
    ['deep parentheses', `${'('.repeat(60)}1${')'.repeat(60)}`, 'depth'],
    ['a depth of a hundred thousand', '('.repeat(1e5), 'length'],
    ['ten kilobytes', `cost${' + cost'.repeat(1463)}`, 'length'],
    ['more than 200 terms', `1${'+1'.repeat(240)}`, 'size'],
    ['a long chain of signs', `${'-'.repeat(450)}1`, 'size'],
  ])('%s', (_what, expression, rule) => {
    expect(refused(expression)).toEqual([`/wishes/expression ${rule}`])
  })

  it('what is no text', () => {
    for (const value of [5, true, ['cost'], { cost: 1 }]) expect(refused(value)).toEqual(['/wishes/expression type'])
  })

  it('a wrong name with the value, the nearest and all known names', () => {
    const [fault] = faultsOf(() => read('sped_km_h + 1'))
    expect(fault?.message).toContain('expression names "sped_km_h"')
    expect(fault?.message).toContain('did you mean "speed_km_h"')
    for (const name of RANKING_QUANTITY_NAMES) expect(fault?.message).toContain(name)
    expect(fault?.value).toBe('"sped_km_h + 1"')
  })

  it('every wrong name at once', () => {
    expect(refused('foo + bar * cost')).toEqual(['/wishes/expression quantity', '/wishes/expression quantity'])
  })

  it('any text by a fault and nothing else, however it is made up', () => {
    const pieces = fc.constantFrom(
      ...'()+-*/^.,_ 0159ecost',
      'cost',
      'min(',
      '1e',
      'speed_km_h',
      'constructor',
      'import',
    )
    const texts = fc.oneof(
      fc.string({ maxLength: 80 }),
      fc.array(pieces, { maxLength: 60 }).map((all) => all.join('')),
    )
    fc.assert(
      fc.property(texts, (text) => {
        const reading = readExpression(text)
        if (reading.ok) expect(typeof compileExpression(reading.expression)(figures)).toBe('number')
        else expect(reading.faults.length).toBeGreaterThan(0)
      }),
      { numRuns: 500 },
    )
  })

  it('a text that no request was read with, where one is expected', () => {
    expect(() => normalisedExpression('import(1)')).toThrow(/the ranking expression calls "import"/)
  })
})

describe('weights', () => {
  const weigh = (weights: unknown) => parseRequest(withField('wishes.weights', weights)).wishes.weights

  it('fall back on 2, 1, 1, 1, each by itself', () => {
    expect(weigh({})).toEqual({ speed: 2, time: 1, cost: 1, margin: 1 })
    expect(weigh({ cost: 4, margin: 0 })).toEqual({ speed: 2, time: 1, cost: 4, margin: 0 })
  })

  it.each([
    ['below nothing', { speed: -1 }, '/wishes/weights/speed range'],
    ['without end', { cost: Number.POSITIVE_INFINITY }, '/wishes/weights/cost finite'],
    ['that are no numbers', { time: 'much' }, '/wishes/weights/time number'],
    ['all of nothing', { speed: 0, time: 0, cost: 0, margin: 0 }, '/wishes/weights sum'],
    ['of something else', { luck: 1 }, '/wishes/weights/luck unknown-field'],
  ])('refuse %s', (_what, weights, fault) => {
    expect(broken(() => weigh(weights))).toEqual([fault])
  })
})
