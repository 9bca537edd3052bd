// Text made safe inside an element or an attribute of HTML and SVG.
const marks: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' }

export function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (mark) => marks[mark] ?? mark)
}
