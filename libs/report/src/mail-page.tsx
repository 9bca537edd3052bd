// The frame of every mail: head, column, style. Styles are written onto the elements; what must stay in the head (narrow
// screens, dark mode) is added afterwards.
import juice from 'juice'
import type { ComponentChildren } from 'preact'
import { renderToStaticMarkup } from 'preact-render-to-string'
import { inlined, kept } from './mail-style.js'

interface PageText {
  readonly title: string
  readonly headline: string
}

function Page({ title, headline, children }: PageText & { readonly children: ComponentChildren }) {
  return (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="supported-color-schemes" content="light dark" />
        <title>{headline}</title>
      </head>
      <body>
        <table class="page" role="presentation" cellPadding="0" cellSpacing="0">
          <tr>
            <td align="center">
              <table class="sheet" role="presentation" cellPadding="0" cellSpacing="0">
                <tr>
                  <td align="left">
                    <div class="brow">
                      <span class="mark">DUCTWRIGHT</span> · {title}
                    </div>
                    <h1>{headline}</h1>
                    {children}
                  </td>
                </tr>
              </table>
            </td>
          </tr>
        </table>
      </body>
    </html>
  )
}

/** The finished document around the given content. */
export function mailPage(text: PageText, children: ComponentChildren): string {
  const bare = renderToStaticMarkup(<Page {...text}>{children}</Page>)
  // The inliner would take a pair of braces in a part name for a template and pass it over.
  const styled = juice.inlineContent(bare.replaceAll('{{', '&#123;{'), inlined)
  const tight = styled.replace(/ style="[^"]*"/g, packed)
  const head = `<style>${kept.trim().replace(/\n/g, '')}</style></head>`
  return `<!doctype html>\n${breakable(tight).replace('</head>', () => head)}\n`
}

/** Longer than any word of a letter; half of a narrow screen holds a piece. */
const LONG_WORD = 25
const PIECE = /(?:&[^;\s]+;|[^&]){1,12}/gu
const TAG_OR_LONG_WORD = new RegExp(`<(?:"[^"]*"|[^>"])*>|(?:&[^;\\s]+;|[^\\s<&]){${LONG_WORD},}`, 'gu')

/**
 * The document with places to break inside words, as names and titles may have them, that would push it off the screen. An
 * address stays whole, so that mail readers make a link of it; where one stands it may break anywhere.
 */
function breakable(html: string): string {
  const body = html.indexOf('<body')
  const whole = html
    .slice(body)
    .replace(TAG_OR_LONG_WORD, (met) =>
      met.startsWith('<') || met.includes('://') ? met : (met.match(PIECE) ?? []).join('<wbr>'),
    )
  return html.slice(0, body) + whole
}

/** A style attribute without the blanks and the last semicolon it does not need: thousands of bytes of a long letter. */
function packed(attribute: string): string {
  return attribute.replace(/([:;,]) /g, '$1').replace(/;"$/, '"')
}
