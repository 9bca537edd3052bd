// Reads an owner's ranking expression: arithmetic over the figures of a setup. mathjs parses the text, which is bounded in
// length and characters before, and a walk over its tree takes what is on the list and names everything else. Nothing is
// evaluated, so that neither a range of a hundred million numbers nor a name such as `constructor` can do anything.
import type { ConstantNode, FunctionNode, MathNode, OperatorNode, ParenthesisNode, SymbolNode } from 'mathjs'
import { z } from 'zod'
import {
  type Expression,
  expressionText,
  FUNCTIONS,
  type FunctionName,
  OPERATORS,
  type Operator,
} from './expression-tree.js'
import { harmless } from './json-guard.js'
import { mathjs } from './mathjs-door.js'
import { didYouMean } from './nearest-name.js'
import { isRankingQuantity, RANKING_QUANTITY_NAMES } from './ranking-quantities.js'

export const LONGEST_EXPRESSION = 500
/** The normalised text of one that long: spaces are put in, and 1e20 is written out. */
const LONGEST_NORMALISED = 10 * LONGEST_EXPRESSION
const MOST_NODES = 200
/** Deeper than any arithmetic a person writes; keeps the parser far from the end of its stack. */
const DEEPEST = 40
const MOST_FAULTS = 8
const STRANGE = /[^A-Za-z0-9_+\-*/^(),. ]/u
const GRAMMAR = 'numbers, named figures, + - * / ^, parentheses, min, max, abs, sqrt, log and exp'

/** A rule broken, worded to follow the name of the field. */
export interface ExpressionFault {
  readonly rule: string
  readonly message: string
}

export type ExpressionReading =
  | { readonly ok: true; readonly expression: Expression }
  | { readonly ok: false; readonly faults: readonly ExpressionFault[] }

/** Stands for what was refused, so that the walk can go on and name every fault. */
const REFUSED: Expression = { kind: 'number', value: 0 }

/** Reads what an owner has written. */
export function readExpression(text: string): ExpressionReading {
  return read(text, LONGEST_EXPRESSION)
}

/**
 * The tree of a text that was normalised when its request was read.
 * @throws RangeError when it is no such text
 */
export function normalisedExpression(text: string): Expression {
  const reading = read(text, LONGEST_NORMALISED)
  if (reading.ok) return reading.expression
  throw new RangeError(`the ranking expression ${reading.faults[0]?.message ?? 'cannot be read'}`)
}

function read(text: string, longest: number): ExpressionReading {
  const before = textFault(text, longest)
  if (before !== null) return { ok: false, faults: [before] }
  let root: MathNode
  try {
    root = mathjs().parse(text)
  } catch (error) {
    const reason = error instanceof SyntaxError ? error.message : 'it is too deep'
    return { ok: false, faults: [{ rule: 'syntax', message: `cannot be read (${harmless(reason)}); it ${wanted()}` }] }
  }
  const walk = new TreeWalk()
  const expression = walk.take(root)
  return walk.faults.length === 0 ? { ok: true, expression } : { ok: false, faults: walk.faults.slice(0, MOST_FAULTS) }
}

function wanted(): string {
  return `takes ${GRAMMAR}; the figures are ${RANKING_QUANTITY_NAMES.join(', ')}`
}

/** What is refused before anything is parsed. */
function textFault(text: string, longest: number): ExpressionFault | null {
  if (text.trim() === '') return { rule: 'length', message: `must not be empty: it ${wanted()}, or null for none` }
  if (text.length > longest) {
    return { rule: 'length', message: `must have at most ${longest} characters, not ${text.length}` }
  }
  const strange = STRANGE.exec(text)?.[0]
  if (strange !== undefined) {
    return { rule: 'character', message: `must not hold ${JSON.stringify(harmless(strange))}: it ${wanted()}` }
  }
  let [depth, deepest] = [0, 0]
  for (const mark of text) {
    depth += Number(mark === '(') - Number(mark === ')')
    deepest = Math.max(deepest, depth)
  }
  return deepest > DEEPEST ? { rule: 'depth', message: `must not nest parentheses deeper than ${DEEPEST}` } : null
}

class TreeWalk {
  readonly faults: ExpressionFault[] = []
  #nodes = 0

  take(node: MathNode): Expression {
    this.#nodes++
    if (this.#nodes > MOST_NODES) {
      if (this.#nodes === MOST_NODES + 1) this.#refuse('size', `must have at most ${MOST_NODES} terms and operators`)
      return REFUSED
    }
    switch (node.type) {
      case 'ParenthesisNode':
        return this.take((node as ParenthesisNode).content)
      case 'ConstantNode':
        return this.#constant((node as ConstantNode).value)
      case 'SymbolNode':
        return this.#quantity((node as SymbolNode).name)
      case 'OperatorNode':
        return this.#operation(node as OperatorNode)
      case 'FunctionNode':
        return this.#call(node as FunctionNode)
      default:
        return this.#refuse('syntax', `must not hold ${JSON.stringify(harmless(node.toString()))}: it ${wanted()}`)
    }
  }

  #constant(value: unknown): Expression {
    if (typeof value === 'number' && Number.isFinite(value)) return { kind: 'number', value }
    return this.#refuse('finite', `must have finite numbers, not ${harmless(String(value))}`)
  }

  #quantity(name: string): Expression {
    if (isRankingQuantity(name)) return { kind: 'quantity', name }
    const known = `; known are ${RANKING_QUANTITY_NAMES.join(', ')}`
    const near = didYouMean(name, RANKING_QUANTITY_NAMES)
    return this.#refuse('quantity', `names "${harmless(name)}", which is no figure here${near}${known}`)
  }

  #operation({ op, args, implicit }: OperatorNode): Expression {
    const [first, second] = args as readonly (MathNode | undefined)[]
    if (implicit) return this.#refuse('operator', 'must have an operator between two values: write * for a product')
    if (first !== undefined && second === undefined && (op === '+' || op === '-')) {
      const of = this.take(first)
      return op === '-' ? { kind: 'negation', of } : of
    }
    const operator = OPERATORS.find((known) => known === op) as Operator | undefined
    if (operator === undefined || first === undefined || second === undefined) {
      return this.#refuse('operator', `must not use "${harmless(op)}": operators are ${OPERATORS.join(' ')}`)
    }
    return { kind: 'operation', operator, left: this.take(first), right: this.take(second) }
  }

  #call({ fn, args }: FunctionNode): Expression {
    const called = fn as unknown as MathNode
    const name = called.type === 'SymbolNode' ? (called as SymbolNode).name : called.toString()
    if (called.type !== 'SymbolNode' || !Object.hasOwn(FUNCTIONS, name)) {
      const known = Object.keys(FUNCTIONS)
      const near = didYouMean(name, known)
      const words = `calls "${harmless(name)}", which is no function here${near}; functions are ${known.join(', ')}`
      return this.#refuse('function', words)
    }
    const { least, most } = FUNCTIONS[name as FunctionName]
    if (args.length < least || args.length > most) {
      const count = most === least ? `${least}` : `at least ${least}`
      return this.#refuse('function', `must give ${name} ${count} value${least > 1 ? 's' : ''}, not ${args.length}`)
    }
    return { kind: 'call', name: name as FunctionName, values: args.map((value) => this.take(value)) }
  }

  #refuse(rule: string, message: string): Expression {
    this.faults.push({ rule, message })
    return REFUSED
  }
}

/** Schema of an expression: text in, normalised text out. */
export function expression() {
  const described = z
    .string()
    .max(LONGEST_EXPRESSION)
    .meta({
      description: `Arithmetic over figures of a setup, the higher the better; ranks instead of the weights. Takes ${GRAMMAR}.`,
      examples: ['speed_km_h - 0.05 * cost', 'min(speed_km_h, 350) + 100 * margin'],
    })
  return described.transform((text, context): string => {
    const reading = readExpression(text)
    if (reading.ok) return expressionText(reading.expression)
    for (const { rule, message } of reading.faults) {
      context.addIssue({ code: 'custom', input: text, message, params: { rule } })
    }
    return z.NEVER
  })
}
