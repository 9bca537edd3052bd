// Pages, tables and citations, as the style test reads them.
import { existsSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { projectFolder, read } from './project-files.js'
import { RECOGNISED_WORKS } from './rules.js'

/** Works a file cites. */
export function citations(file: string): string[] {
  const text = read(file)
  return RECOGNISED_WORKS.flatMap((work) => [...text.matchAll(work)].map((match) => match[0]))
}

/** Column names of a table. */
export function header(file: string): string[] {
  const line = read(file)
    .split('\n')
    .find((text) => text.trim() !== '' && !text.startsWith('#'))
  return (line ?? '').trim().split(',')
}

export function comments(file: string): string {
  return read(file)
    .split('\n')
    .filter((line) => line.startsWith('#'))
    .join('\n')
}

/** Whether a relative link of a page leads to a file, and to a heading when it names one. */
export function resolves(page: string, link: string): boolean {
  const [path = '', heading] = link.split('#')
  const target = path === '' ? page : join(dirname(page), path)
  if (!existsSync(join(projectFolder, target))) return false
  return heading === undefined || anchors(target).includes(heading)
}

// Headings turn into anchors as on the usual code hosts: lower case, spaces to hyphens, other signs dropped.
function anchors(page: string): string[] {
  const headings = read(page).match(/^#+ .*$/gm) ?? []
  return headings.map((line) =>
    line
      .replace(/^#+ /, '')
      .toLowerCase()
      .replace(/[^\p{L}\p{N}\s_-]/gu, '')
      .trim()
      .replace(/\s/g, '-'),
  )
}

/** Names of the environment variables a configuration reads. */
export function variables(config: string): string[] {
  return [...new Set([...read(config).matchAll(/^ {2}([A-Z][A-Z_]+): /gm)].map((match) => match[1] ?? ''))]
}
