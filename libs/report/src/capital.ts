// The first letter of a sentence that is put together from parts.

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
