// A sum of money at the border: a number in the catalogue's currency, or text with an ISO 4217 code or a sign that belongs
// to one currency only ("900 EUR", "EUR 900", "€900"). No rate of exchange is ever applied: the code is kept, and whoever
// has the catalogue compares. Signs shared by several currencies ($, ¥, kr) are refused with the cure.
import { z } from 'zod'
import { commaReadings, readNumber } from './written-number.js'

export interface Money {
  readonly amount: number
  /** ISO 4217; null: none written, the catalogue's is meant. */
  readonly currency: string | null
}

const signs: Readonly<Record<string, string>> = {
  '€': 'EUR',
  '£': 'GBP',
  '₹': 'INR',
  '₺': 'TRY',
  '₴': 'UAH',
  '₪': 'ILS',
  '₫': 'VND',
  zł: 'PLN',
  Kč: 'CZK',
}

// Above any purchase in any currency, yet exact in a double.
const LARGEST = 1e9
const AMOUNT = String.raw`\d{1,12}(?:[.,]\d{1,3})?`
const MARK = String.raw`[A-Za-z]{3}|[^\s\d.,+-]{1,3}`
const WRITTEN = new RegExp(`^(?:(${AMOUNT})[ \\u00a0\\u202f]?(${MARK})|(${MARK})[ \\u00a0\\u202f]?(${AMOUNT}))$`, 'u')
const ALLOWED = 'a number in the currency of the catalogue, or text such as "900 EUR" or "€900"'

export type MoneyReading =
  | { readonly ok: true; readonly value: Money }
  | { readonly ok: false; readonly rule: string; readonly message: string }

const broken = (rule: string, message: string): MoneyReading => ({ ok: false, rule, message })

/** Codes known to the runtime's Unicode data: ISO 4217, present and past. */
function isCurrency(code: string): boolean {
  return Intl.supportedValuesOf('currency').includes(code)
}

function currencyOf(mark: string): string | null {
  const code = signs[mark] ?? mark.toUpperCase()
  return isCurrency(code) ? code : null
}

/** `1,200` and `1.200` are twelve hundred to some and one and a fifth to others; cents have two figures. */
function readAmount(amount: string): number | readonly [string, string] {
  return commaReadings(amount.replace('.', ',')) ?? readNumber(amount)
}

function fromText(text: string): MoneyReading {
  const match = text.length > 40 ? null : WRITTEN.exec(text.trim())
  if (!match) return broken('money', `must be ${ALLOWED}`)
  const mark = match[2] ?? match[3] ?? ''
  const amount = readAmount(match[1] ?? match[4] ?? '')
  if (typeof amount !== 'number') return broken('money', `can be read as ${amount.join(' or as ')}: write one of them`)
  const currency = currencyOf(mark)
  if (currency) return { ok: true, value: { amount, currency } }
  return broken('currency', `has "${mark}", which names no single currency: write the ISO 4217 code, as in "900 EUR"`)
}

function read(value: unknown): MoneyReading {
  if (typeof value === 'string') return fromText(value)
  if (typeof value !== 'number') return broken('type', `must be ${ALLOWED}, or null for no limit`)
  if (!Number.isFinite(value)) return broken('finite', `must be a finite number: ${ALLOWED}`)
  return { ok: true, value: { amount: value, currency: null } }
}

/** Reads a sum and judges its size. */
export function readMoney(value: unknown): MoneyReading {
  const reading = read(value)
  if (!reading.ok || (reading.value.amount >= 0 && reading.value.amount <= LARGEST)) return reading
  return broken('range', `must be from 0 to ${LARGEST}: money to spend is not negative, and no model costs more`)
}

/** Schema of one sum of money. */
export function money() {
  const described = z.unknown().meta({
    anyOf: [
      { type: 'number', minimum: 0, maximum: LARGEST },
      { type: 'string', maxLength: 40 },
    ],
    examples: [900, '900 EUR'],
  })
  return described.transform((value, context): Money => {
    const reading = readMoney(value)
    if (reading.ok) return reading.value
    context.addIssue({ code: 'custom', input: value, message: reading.message, params: { rule: reading.rule } })
    return z.NEVER
  })
}
