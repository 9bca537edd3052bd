// Numbers in sentences about a catalogue: as a table would hold them, with a comma between thousands; amounts of money
// whole or with cents.

export function numberWords(value: number): string {
  const text = String(value)
  return text.includes('e') ? text : grouped(text.replace('-', '−'))
}

/** Whole amounts without decimals, others with cents. */
export function amountWords(amount: number): string {
  const cents = Number.isInteger(Math.round(amount * 100) / 100) ? 0 : 2
  return grouped(amount.toFixed(cents))
}

function grouped(digits: string): string {
  const [whole = '', fraction] = digits.split('.')
  const groups = whole.replace(/\B(?=(\d{3})+$)/g, ',')
  return fraction === undefined ? groups : `${groups}.${fraction}`
}
