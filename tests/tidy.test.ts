// The style of the project as a test: what depends on what, where the environment is read, what a file looks like, and
// that the documentation names only what exists. Works on the folder, so it also holds in a copy without history.
import { homedir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { imports, manifest, mayImport, packageName, packageOf } from './tidy/manifests.js'
import { citations, comments, header, resolves, variables } from './tidy/pages.js'
import { projectFiles, projectFolder, read } from './tidy/project-files.js'
import { LONG_FILES, RANKS, UNIT_SUFFIXES, UNITLESS_COLUMNS } from './tidy/rules.js'

const files = projectFiles()
const sources = files.filter((file) => /^(libs|services|cli)\/.*src\/.*\.tsx?$/.test(file))
const code = files.filter((file) => /\.(ts|tsx|mjs|js|sql)$/.test(file))
const pages = files.filter((file) => file.endsWith('.md'))

/** Every line of the files that matches, as `file:line: text`. */
function hits(among: readonly string[], pattern: RegExp): string[] {
  return among.flatMap((file) =>
    read(file)
      .split('\n')
      .flatMap((line, index) => (pattern.test(line) ? [`${file}:${index + 1}: ${line.trim()}`] : [])),
  )
}

it('finds the source files at all', () => {
  expect(sources.length).toBeGreaterThan(50)
  expect(new Set(sources.map(packageOf))).toEqual(new Set(Object.keys(RANKS)))
})

describe('imports', () => {
  it('run one way: models, catalogue, contract, pipeline, then records, queue and report, services, command line', () => {
    const wrong = sources.flatMap((file) =>
      imports(file)
        .filter((name) => name.startsWith('@ductwright/'))
        .filter((name) => !mayImport(packageOf(file), name.split('/')[1] ?? ''))
        .map((name) => `${file} imports ${name}`),
    )
    expect(wrong).toEqual([])
  })

  it('go to the file, not through a folder index', () => {
    expect(files.filter((file) => /(^|\/)index\.tsx?$/.test(file))).toEqual([])
    const relative = sources.flatMap((file) => imports(file).filter((name) => /^\.\.?\/?$/.test(name)))
    expect(relative).toEqual([])
  })

  it('of the models stay inside the models', () => {
    const models = sources.filter((file) => packageOf(file) === 'models')
    const outside = models.flatMap((file) => imports(file).filter((name) => !name.startsWith('.')))
    expect(outside).toEqual([])
  })

  it('name only packages the importing package depends on', () => {
    const undeclared = sources.flatMap((file) => {
      const folder = file.split('/src/')[0] ?? ''
      const declared = Object.keys(manifest(join(folder, 'package.json')).dependencies ?? {})
      return imports(file)
        .filter((name) => !name.startsWith('.') && !name.startsWith('node:'))
        .map(packageName)
        .filter((name) => !declared.includes(name))
        .map((name) => `${file} imports ${name}`)
    })
    expect(undeclared).toEqual([])
  })
})

describe('the models and the pipeline', () => {
  const pure = sources.filter((file) => ['models', 'pipeline'].includes(packageOf(file)))

  it('read no clock, no random numbers and no environment, and print nothing', () => {
    expect(hits(pure, /\bDate\b|performance\.|Math\.random|\bprocess\.|\bconsole\.|setTimeout|\bfetch\(/)).toEqual([])
  })

  it('do no input or output', () => {
    expect(hits(pure, /from '(node:|fs|pg|ioredis|bullmq)/)).toEqual([])
  })
})

describe('the environment', () => {
  it('is read in files named config.ts only', () => {
    const others = sources.filter((file) => !file.endsWith('/config.ts'))
    expect(hits(others, /\bprocess\.env\b|from 'node:process'/)).toEqual([])
  })
})

describe('every source file', () => {
  it('opens with a comment that says what it is for', () => {
    const bare = code.filter((file) => {
      const lines = read(file).split('\n')
      const first = lines[0]?.startsWith('#!') ? lines[1] : lines[0]
      return !/^(\/\/|\/\*|--)/.test(first ?? '')
    })
    expect(bare).toEqual([])
  })

  it('is at most 300 lines long, a test 400, unless listed with its reason', () => {
    const most = (file: string) => (file.startsWith('tests/') ? 400 : 300)
    const long = code.filter((file) => read(file).trimEnd().split('\n').length > most(file))
    expect(long.filter((file) => !(file in LONG_FILES))).toEqual([])
    expect(Object.keys(LONG_FILES).filter((file) => !code.includes(file))).toEqual([])
  })

  it('has a kebab-case name that says what it holds', () => {
    const stem = (file: string) => (file.split('/').at(-1) ?? '').split('.')[0] ?? ''
    expect(code.filter((file) => !/^[a-z0-9]+(-[a-z0-9]+)*$/.test(stem(file)))).toEqual([])
    expect(
      code.filter((file) => ['utils', 'util', 'common', 'helpers', 'helper', 'types', 'misc'].includes(stem(file))),
    ).toEqual([])
  })

  it('leaves nothing for later', () => {
    const marks = new RegExp(['TO', 'DO|FIX', 'ME|X', 'XX\\b|not implem', 'ented'].join(''))
    expect(hits(code, marks)).toEqual([])
  })
})

describe('tests', () => {
  it('run all of themselves', () => {
    const tests = files.filter((file) => file.endsWith('.test.ts') && file !== 'tests/tidy.test.ts')
    expect(hits(tests, /\b(it|test|describe)\.(only|skip|todo|fails)\(/)).toEqual([])
  })
})

describe('sources', () => {
  const listed = read('docs/sources.md')
  const citing = files.filter(
    (file) => (code.includes(file) || file.endsWith('.csv')) && !file.startsWith('tests/tidy'),
  )

  it('cited in code or tests are listed in docs/sources.md', () => {
    const cited = citing.flatMap((file) => citations(file).map((work) => ({ file, work })))
    expect(cited.length).toBeGreaterThan(20)
    expect(cited.filter(({ work }) => !listed.includes(work)).map(({ file, work }) => `${file} cites ${work}`)).toEqual(
      [],
    )
  })

  it('listed as cited are cited', () => {
    const text = code
      .concat(files.filter((file) => file.endsWith('.csv')))
      .map(read)
      .join('\n')
    const rows = [...(listed.split('## Behind')[0] ?? '').matchAll(/^\| (?!Cited as|-)(.+?) +\|/gm)].map(
      (row) => row[1] ?? '',
    )
    expect(rows.length).toBeGreaterThan(15)
    expect(rows.filter((row) => !text.includes(row.split(' & ')[0] ?? row))).toEqual([])
  })
})

describe('tracked text', () => {
  const text = files.filter((file) => !/\.(png|ttf|ico|gz)$/.test(file))

  it('holds no path of this machine', () => {
    // A checkout right below the root, as in a container, has too short a name to tell.
    const folders = [homedir(), projectFolder.replace(/\/$/, '')].filter(
      (folder) => folder.length > 1 && (folder === homedir() || folder.split('/').length > 2),
    )
    const own = folders.flatMap((folder) =>
      text.filter((file) => read(file).includes(`${folder}/`)).map((file) => `${file} names ${folder}`),
    )
    expect(own).toEqual([])
    expect(hits(text, /(^|[\s"'`(=])\/(home|Users)\/[a-z]|[A-Z]:\\\\?Users/)).toEqual([])
  })

  it('names no package registry', () => {
    expect(hits(text, /\bregistry\.[a-z]+\w*\.[a-z]{2,}|"resolved": "https?:/)).toEqual([])
  })
})

describe('tables', () => {
  const tables = files.filter((file) => file.endsWith('.csv'))

  it('carry a unit in the name of every column that has one', () => {
    const data = tables.filter((file) => file.startsWith('libs/catalogue/data/'))
    expect(data.length).toBeGreaterThan(5)
    const bare = data.flatMap((file) =>
      header(file)
        .filter((column) => !UNITLESS_COLUMNS.has(column) && !UNIT_SUFFIXES.some((unit) => column.endsWith(`_${unit}`)))
        .map((column) => `${file}: ${column}`),
    )
    expect(bare).toEqual([])
  })

  it('of published values open with their citation and tolerance', () => {
    const authorities = tables.filter((file) => file.startsWith('tests/authorities/'))
    const wrong = authorities.filter((file) => !/^#/.test(read(file)) || !/tolerance/i.test(comments(file)))
    expect(wrong).toEqual([])
  })
})

describe('the documentation', () => {
  it('names only commands that exist', () => {
    const scripts = Object.keys(manifest('package.json').scripts ?? {})
    const named = pages.flatMap((page) =>
      [...read(page).matchAll(/npm run ([a-z:-]+)/g)].map((match) => ({ page, script: match[1] ?? '' })),
    )
    expect(named.length).toBeGreaterThan(2)
    expect(named.filter(({ script }) => !scripts.includes(script))).toEqual([])
  })

  it('links only to files and headings that exist', () => {
    const broken = pages.flatMap((page) =>
      [...read(page).matchAll(/\]\(([^)\s]+)\)/g)]
        .map((match) => match[1] ?? '')
        .filter((link) => !/^(https?|mailto):/.test(link) && !resolves(page, link))
        .map((link) => `${page} links to ${link}`),
    )
    expect(broken).toEqual([])
  })

  it('explains every variable a process reads', () => {
    const names = sources.filter((file) => file.endsWith('/config.ts')).flatMap(variables)
    const readme = read('README.md')
    expect(names.length).toBeGreaterThan(15)
    expect(names.filter((name) => !new RegExp(`^\\| \`${name}\` +\\|`, 'm').test(readme))).toEqual([])
  })

  it('names every quantity of a part with its unit', () => {
    const parts = ['fan', 'motor', 'esc', 'pack', 'airframe'].map((part) => `libs/models/src/${part}/${part}.ts`)
    const fields = parts.flatMap((file) =>
      [...read(file).matchAll(/readonly (\w+): (?:readonly )?number/g)].map((match) => match[1]),
    )
    const nomenclature = read('docs/nomenclature.md')
    expect(fields.length).toBeGreaterThan(60)
    expect(fields.filter((field) => !nomenclature.includes(`\`${field}\``))).toEqual([])
  })

  it('is finished', () => {
    expect(hits(pages, /<!--/)).toEqual([])
  })
})

describe('package manifests', () => {
  const manifests = files.filter((file) => file.endsWith('package.json'))

  it('pin exact versions', () => {
    const loose = manifests.flatMap((file) => {
      const { dependencies = {}, devDependencies = {} } = manifest(file)
      return Object.entries({ ...dependencies, ...devDependencies })
        .filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version))
        .map(([name, version]) => `${file}: ${name} ${version}`)
    })
    expect(manifests.length).toBe(Object.keys(RANKS).length + 1)
    expect(loose).toEqual([])
  })
})
