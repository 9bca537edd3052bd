// An owner's ranking expression once it is read: a small tree of our own, its normalised text, and its value for a setup.
// The library that parsed the text has no part in either, so nothing it could do with a name or a function can happen here.
import type { RankingFigures, RankingQuantity } from './ranking-quantities.js'

export const OPERATORS = ['+', '-', '*', '/', '^'] as const
export type Operator = (typeof OPERATORS)[number]

/** Functions and how many values they take. */
export const FUNCTIONS = {
  min: { least: 2, most: Number.POSITIVE_INFINITY },
  max: { least: 2, most: Number.POSITIVE_INFINITY },
  abs: { least: 1, most: 1 },
  sqrt: { least: 1, most: 1 },
  log: { least: 1, most: 1 },
  exp: { least: 1, most: 1 },
} as const
export type FunctionName = keyof typeof FUNCTIONS

export type Expression =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'quantity'; readonly name: RankingQuantity }
  | { readonly kind: 'negation'; readonly of: Expression }
  | { readonly kind: 'operation'; readonly operator: Operator; readonly left: Expression; readonly right: Expression }
  | { readonly kind: 'call'; readonly name: FunctionName; readonly values: readonly Expression[] }

const OPERATIONS: Readonly<Record<Operator, (left: number, right: number) => number>> = {
  '+': (left, right) => left + right,
  '-': (left, right) => left - right,
  '*': (left, right) => left * right,
  '/': (left, right) => left / right,
  '^': (left, right) => left ** right,
}

const CALLS: Readonly<Record<FunctionName, (values: readonly number[]) => number>> = {
  min: (values) => Math.min(...values),
  max: (values) => Math.max(...values),
  abs: ([value = Number.NaN]) => Math.abs(value),
  sqrt: ([value = Number.NaN]) => Math.sqrt(value),
  log: ([value = Number.NaN]) => Math.log(value),
  exp: ([value = Number.NaN]) => Math.exp(value),
}

/** Value of an expression; NaN or Infinity where it has none, such as 1 over 0 or the root of less than 0. */
export function compileExpression(expression: Expression): (figures: RankingFigures) => number {
  switch (expression.kind) {
    case 'number':
      return () => expression.value
    case 'quantity':
      return (figures) => figures[expression.name]
    case 'negation': {
      const of = compileExpression(expression.of)
      return (figures) => -of(figures)
    }
    case 'operation': {
      const [left, right] = [compileExpression(expression.left), compileExpression(expression.right)]
      const operation = OPERATIONS[expression.operator]
      return (figures) => operation(left(figures), right(figures))
    }
    case 'call': {
      const values = expression.values.map(compileExpression)
      const call = CALLS[expression.name]
      return (figures) => call(values.map((value) => value(figures)))
    }
  }
}

const STRENGTH: Readonly<Record<Operator, number>> = { '+': 1, '-': 1, '*': 2, '/': 2, '^': 4 }
const NEGATION_STRENGTH = 3
const ATOM_STRENGTH = 5

function strengthOf(expression: Expression): number {
  if (expression.kind === 'negation') return NEGATION_STRENGTH
  return expression.kind === 'operation' ? STRENGTH[expression.operator] : ATOM_STRENGTH
}

/** As weak as `least` at most needs parentheses. */
function enclosed(expression: Expression, least: number): string {
  const text = expressionText(expression)
  return strengthOf(expression) >= least ? text : `(${text})`
}

/** One spelling for each tree, with no more parentheses than it needs: reading it gives the same tree again. */
export function expressionText(expression: Expression): string {
  switch (expression.kind) {
    case 'number':
      return String(expression.value)
    case 'quantity':
      return expression.name
    case 'negation':
      return `-${enclosed(expression.of, NEGATION_STRENGTH)}`
    case 'operation': {
      const { operator, left, right } = expression
      const strength = STRENGTH[operator]
      // To the right of a power a sign or another power needs no parentheses.
      if (operator === '^') return `${enclosed(left, ATOM_STRENGTH)}^${enclosed(right, NEGATION_STRENGTH)}`
      return `${enclosed(left, strength)} ${operator} ${enclosed(right, strength + 1)}`
    }
    case 'call':
      return `${expression.name}(${expression.values.map(expressionText).join(', ')})`
  }
}
