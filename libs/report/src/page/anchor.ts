// The name of a heading within the page: its letters in lower case, joined by hyphens.
export function anchor(heading: string): string {
  return heading
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
}
