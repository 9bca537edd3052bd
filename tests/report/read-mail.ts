// How a person and a spreadsheet read what is written: the words an HTML document shows or would show without pictures,
// and every number in a text.

const entities: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" }

function readEntities(text: string): string {
  return text
    .replace(/&#(\d+);/g, (_, code: string) => String.fromCodePoint(Number(code)))
    .replace(/&(\w+);/g, (whole, name: string) => entities[name] ?? whole)
    .replaceAll('\u00a0', ' ')
}

/** What a reader sees of the HTML: body only, the words of pictures in their place, tags gone, entities read. */
export function seen(html: string): string {
  const body = html.slice(html.indexOf('<body'))
  const told = body
    .replace(/<img[^>]* alt="([^"]*)"[^>]*>/g, '\n$1\n')
    .replace(/<span[^>]*>|<\/span>|<wbr>/g, '')
    .replace(/<[^>]*>/g, '\n')
  return readEntities(told)
}

/** Every number, with sign, thousands, decimals and colon, in order of size of the text. */
export function numbers(text: string): string[] {
  return (text.match(/−?\d[\d,.:]*/g) ?? []).map((number) => number.replace(/[,.:]+$/, '')).sort()
}

/** One long line, so that wrapping does not matter. */
export function flowing(text: string): string {
  return text.replace(/\s+/g, ' ')
}
