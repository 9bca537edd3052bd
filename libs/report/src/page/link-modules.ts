// Joins compiled modules into the text of one classic script, so that a page can carry it inline under the hash of its
// bytes. Each module becomes a function that returns what it exports; imports become reads of those. It takes what the
// compiler emits for the modules of this project: named imports, and exports of functions, constants and classes.
import { readFile } from 'node:fs/promises'

const importLine = /^import\s*\{([^}]*)\}\s*from\s*'([^']+)';?$/gm
const exportMark = /^export (?=(?:async )?function |const |class )/gm
const exportedName = /^export (?:async )?(?:function\*?|const|class) ([\w$]+)/gm
const leftOver = /^(?:import|export)\b.*$/m

interface Linked {
  readonly name: string
  readonly code: string
}

/**
 * The script that runs the function `start` of the module at `entry`, with the document.
 * @throws Error for a form of import or export that is not taken, or code that would end its element
 */
export async function linkModules(entry: URL, start: string): Promise<string> {
  const linked = new Map<string, Linked>()
  const main = await link(entry, linked)
  const body = [...linked.values()].map(({ code }) => code).join('\n')
  const script = `'use strict';\n(() => {\n${body}\n${main.name}.${start}(document);\n})();\n`
  if (/<\/script|<!--/i.test(script)) throw new Error(`the script of ${entry.href} would end its own element`)
  return script
}

/** Adds a module behind the ones it imports; each once. */
async function link(url: URL, linked: Map<string, Linked>): Promise<Linked> {
  const known = linked.get(url.href)
  if (known !== undefined) return known
  const source = (await readFile(url, 'utf8'))
    .replace(/^\/\/# sourceMappingURL=.*$/m, '')
    .replace(/^export \{\};?$/m, '')
  const reads: string[] = []
  for (const [, names = '', specifier = ''] of source.matchAll(importLine)) {
    const { name } = await link(resolved(specifier, url), linked)
    reads.push(`const {${names.replace(/(\w+) as (\w+)/g, '$1: $2')}} = ${name};`)
  }
  const exported = [...source.matchAll(exportedName)].map(([, name]) => name)
  const body = source.replace(importLine, '').replace(exportMark, '')
  const left = leftOver.exec(body)
  if (left !== null) throw new Error(`${url.href} has a form that cannot be linked: ${left[0]}`)
  const name = `module${linked.size}`
  const code = `const ${name} = (() => {\n${reads.join('\n')}\n${body.trim()}\nreturn { ${exported.join(', ')} };\n})();`
  const module = { name, code }
  linked.set(url.href, module)
  return module
}

function resolved(specifier: string, from: URL): URL {
  return specifier.startsWith('.') ? new URL(specifier, from) : new URL(import.meta.resolve(specifier))
}
