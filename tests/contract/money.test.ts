// Sums of money: the currency is kept as written, never guessed and never converted. Codes by ISO 4217.
import { readMoney } from '@ductwright/contract/money'
import { describe, expect, it } from 'vitest'

describe('a sum of money', () => {
  it.each([
    [900, 900, null],
    [0, 0, null],
    ['900 EUR', 900, 'EUR'],
    ['EUR 900', 900, 'EUR'],
    ['900eur', 900, 'EUR'],
    ['€900', 900, 'EUR'],
    ['900 €', 900, 'EUR'],
    ['899,90 €', 899.9, 'EUR'],
    ['899.90 CHF', 899.9, 'CHF'],
    ['£750', 750, 'GBP'],
    ['3500 zł', 3500, 'PLN'],
    ['150000 JPY', 150_000, 'JPY'],
    ['1200.5 USD', 1200.5, 'USD'],
  ])('reads %j as %d with the code %s', (value, amount, currency) => {
    expect(readMoney(value)).toEqual({ ok: true, value: { amount, currency } })
  })

  it.each([
    ['$900', 'currency'],
    ['900 $', 'currency'],
    ['¥900', 'currency'],
    ['900 kr', 'currency'],
    ['900 EURO', 'money'],
    ['900 XQZ', 'currency'],
    ['900 coins', 'money'],
    ['900', 'money'],
    ['', 'money'],
    ['1,200 EUR', 'money'],
    ['1.200 EUR', 'money'],
    ['1 200 EUR', 'money'],
    ['-5 EUR', 'money'],
    ['1e3 EUR', 'money'],
    ['EUR', 'money'],
    ['EUR 900 EUR', 'money'],
    [-1, 'range'],
    [2e9, 'range'],
    ['999999999999 EUR', 'range'],
    [Number.NaN, 'finite'],
    [Number.POSITIVE_INFINITY, 'finite'],
    [true, 'type'],
    [{ amount: 900 }, 'type'],
  ])('refuses %j by the rule "%s"', (value, rule) => {
    expect(readMoney(value)).toMatchObject({ ok: false, rule })
  })

  it('tells the cure for a sign that several currencies share', () => {
    expect(readMoney('$900')).toMatchObject({ message: expect.stringContaining('write the ISO 4217 code') })
  })

  it('names both readings of an ambiguous amount', () => {
    expect(readMoney('1.200 EUR')).toMatchObject({ message: expect.stringMatching(/1200 or as 1\.200/) })
  })
})
