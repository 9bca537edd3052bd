// The few pages a person opens from a mail or a problem's type: plain HTML, no script, one inline style whose hash the
// content security policy allows.
import { createHash } from 'node:crypto'

const STYLE =
  'body{font:1rem/1.5 system-ui,sans-serif;max-width:42rem;margin:2rem auto;padding:0 1rem;color:#1a1a1a;background:#fff}' +
  'button{font:inherit;padding:.5rem 1rem}' +
  '@media (prefers-color-scheme:dark){body{color:#eee;background:#161616}}'

export const styleHash = `'sha256-${createHash('sha256').update(STYLE).digest('base64')}'`

export const htmlType = 'text/html; charset=utf-8'

export function page(title: string, body: string): string {
  return `<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1"><meta name="referrer" content="no-referrer"><title>${inert(title)}</title><style>${STYLE}</style></head>
<body><h1>${inert(title)}</h1>
${body}
</body>
</html>
`
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

/** Text that cannot become markup. */
export const inert = (text: string): string => text.replace(/[&<>"']/g, (mark) => ENTITIES[mark] ?? '')
