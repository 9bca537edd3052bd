// Colours as a browser tells them, and the contrast of two: WCAG 2.1 relative luminance, from memory.

/** `#rrggbb` as a browser writes it. */
export function rgb(hex: string): string {
  const parts = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16))
  return `rgb(${parts.join(', ')})`
}

function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = (colour.match(/[\d.]+/g) ?? []).slice(0, 3).map((part) => linear(Number(part)))
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue
}

function linear(part: number): number {
  const share = part / 255
  return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
}

/** 1 for equal colours, 21 for black on white. */
export function contrast(a: string, b: string): number {
  const [dark = 0, light = 0] = [luminance(a), luminance(b)].sort((one, two) => one - two)
  return (light + 0.05) / (dark + 0.05)
}
