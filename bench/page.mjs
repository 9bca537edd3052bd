// The page of what was measured: one section a function, figures in padded tables.

/** The whole page. */
export function resultsPage({
  heading,
  solvers,
  sweeps,
  further,
  memory,
  fronts,
  estimates,
  certificates,
  changes,
  largest,
}) {
  const sections = [
    ...solverSections(solvers),
    ...bruteSection([...sweeps, ...further]),
    ...searchSection(sweeps),
    ...threadSection(sweeps, memory, largest),
    ...frontSection(fronts),
    ...(further.length > 0 ? growthSection(further) : []),
    ...estimateSection(estimates),
    ...certificateSection(certificates),
    ...changeSection(changes),
  ]
  return [...heading, '', ...sections].join('\n')
}

function solverSections({ stages, bounds }) {
  const rows = (list) => list.map(({ name, ...ns }) => [name, ...spread(ns, (value) => value.toFixed(0))])
  return [
    '## Stages of one evaluation',
    '',
    'Setups of the demonstration catalogue that hold every limit, in turn; batches of 1000.',
    '',
    ...table(['What', 'Least ns', 'Mean ns', '± ns'], rows(stages)),
    '',
    'Bounds of one box; each row contains those above it. A search leaves a box at the first row that settles it.',
    '',
    ...table(['What', 'Least ns', 'Mean ns', '± ns'], rows(bounds)),
    '',
  ]
}

function bruteSection(rows) {
  return [
    '## Working everything through',
    '',
    'An even sample of nodes (fan, motor, nozzle) with an even sample of units (controller, timing, pack, arrangement), at',
    'every duty, on one thread. Combinations end at the first limit they break.',
    '',
    ...table(
      ['Question', 'Combinations', 'Best million/s', 'Mean million/s', '± million/s', 'Runs'],
      rows.map(({ name, brute }) => [
        name,
        count(brute.combinations),
        ...[brute.best, brute.mean, brute.deviation].map((rate) => (rate / 1e6).toFixed(3)),
        brute.runs,
      ]),
    ),
    '',
  ]
}

function searchSection(rows) {
  return [
    '## Searched against worked through',
    '',
    'Parts are fans × motors × controllers × packs; generated catalogues ask for 260 km/h with four nozzle ratios, the',
    'demonstration catalogue for 340 km/h at 1200 EUR. Every thread prepares the question and its seeds before the clock',
    'starts (the pilot that finds the seeds has a table of its own). Seconds hold the search of all eight shards, the way of',
    'their fronts between threads and the merge.',
    '',
    ...table(
      [
        'Question',
        'Raw',
        'Compatible',
        'Front',
        '1 thread: least s',
        'mean s',
        '± s',
        '2 threads: least s',
        'mean s',
        '± s',
        'Runs',
      ],
      rows.map(({ name, raw, compatible, front, one, two }) => [
        name,
        ...[raw, compatible, front].map(count),
        ...spread(one, seconds),
        ...spread(two, seconds),
        `${one.runs}, ${two.runs}`,
      ]),
    ),
    '',
    'All worked through is extrapolated: compatible combinations over the best rate of the sample above, so without the',
    'growing front that would slow it. The ratio is that over the least time of the search, both on one thread. Processor time',
    'is that of all threads of the process in the quickest search on one thread.',
    '',
    ...table(
      [
        'Question',
        'Boxes',
        'Boxes a member',
        'ns a box',
        'Processor s',
        'Worked through',
        'All worked through, s',
        'Ratio',
      ],
      rows.map(({ name, boxes, front, nsPerBox, evaluated, brute, one }) => [
        name,
        count(boxes),
        count(Math.round(boxes / front)),
        count(Math.round(nsPerBox)),
        seconds(one.processor),
        count(evaluated),
        count(Math.round(brute.seconds)),
        count(Math.round(brute.seconds / one.least)),
      ]),
    ),
    '',
  ]
}

function threadSection(rows, memory, largest) {
  const scaling = table(
    ['Question', 'Least 1 / least 2', 'Mean 1 / mean 2', 'Processors had by 2', 'Processor time 2 / 1'],
    rows.map(({ name, one, two }) => [
      name,
      (one.least / two.least).toFixed(2),
      (one.mean / two.mean).toFixed(2),
      two.processorsHad.toFixed(2),
      (two.processor / one.processor).toFixed(2),
    ]),
  )
  const memoryLine =
    memory === null
      ? []
      : [
          `Largest resident set of a fresh process on two threads, ${largest}: ${megabytes(memory.prepared)} MB with the question`,
          `prepared by both, ${megabytes(memory.swept)} MB after the sweep.`,
          '',
        ]
  return [
    '## Two threads and memory',
    '',
    'Only where two threads had nearly two processors do the first columns tell how the search scales; elsewhere other work had',
    'the second one. Processor time of two threads over that of one is work that both did, or that waiting for memory cost.',
    '',
    ...scaling,
    '',
    ...memoryLine,
  ]
}

function frontSection(fronts) {
  return [
    '## Front filter',
    '',
    ...table(
      ['Points', 'Number', 'Members', 'Least ns', 'Mean ns', '± ns', 'Best million/s', 'Runs'],
      fronts.map(({ name, points, members, leastNs, meanNs, deviationNs, best, runs }) => [
        name,
        count(points),
        count(members),
        ...[leastNs, meanNs, deviationNs].map((ns) => ns.toFixed(1)),
        (best / 1e6).toFixed(3),
        runs,
      ]),
    ),
    '',
  ]
}

function growthSection(further) {
  return [
    '## Growth',
    '',
    '![Time of a search against combinations and against the size of the front](growth.svg)',
    '',
    'Points that no table above holds, on one thread:',
    '',
    ...table(
      ['Question', 'Raw', 'Compatible', 'Front', 'Least s', 'Mean s', '± s', 'Runs', 'Boxes'],
      further.map(({ name, raw, compatible, front, one, boxes }) => [
        name,
        ...[raw, compatible, front].map(count),
        ...spread(one, seconds),
        one.runs,
        count(boxes),
      ]),
    ),
    '',
  ]
}

function estimateSection(rows) {
  return [
    '## Estimate before a sweep is accepted',
    '',
    'The pilot searches a little ahead of the sweep, in warm code here; seconds are those of one thread, the least of its runs.',
    '',
    ...table(
      ['Question', 'Pilot s', 'Boxes expected', 'Boxes', 'Expected / met', 'Estimate s', 'Took s', 'Estimate / took'],
      rows.map(({ name, pilot, expected, boxes, estimate, took }) => [
        name,
        seconds(pilot),
        count(Math.round(expected)),
        count(boxes),
        (expected / boxes).toFixed(2),
        seconds(estimate),
        seconds(took),
        (estimate / took).toFixed(2),
      ]),
    ),
    '',
  ]
}

function certificateSection(rows) {
  return [
    '## Certificate',
    '',
    'In one shard on one thread; the check proves the front from the certificate without a search.',
    '',
    ...table(
      ['Question', 'Rows', 'kB', 'Search s', 'Search that keeps it s', 'Check s'],
      rows.map(({ name, rows: length, bytes, plain, kept, check }) => [
        name,
        count(length),
        count(Math.round(bytes / 1e3)),
        ...[plain, kept, check].map(seconds),
      ]),
    ),
    '',
  ]
}

export function changeSection(rows) {
  return [
    '## After one part changed',
    '',
    'One shard on one thread: the whole search of the changed catalogue against the search from the certificate of the sweep',
    'before. Both need the changed question prepared, which is in neither.',
    '',
    ...table(
      ['Question, part and change', 'Boxes whole', 'Boxes after', 'Prepare s', 'Whole s', 'After s', 'Ratio'],
      rows.map(({ name, kind, what, fullBoxes, boxes, preparing, full, again }) => [
        `${name}: ${kind} ${what}`,
        ...[fullBoxes, boxes].map(count),
        ...[preparing, full, again].map(seconds),
        (full / again).toFixed(1),
      ]),
    ),
    '',
  ]
}

/** Least, mean and deviation; one run has none. */
function spread({ least, mean, deviation, runs }, format) {
  return [format(least), format(mean), runs === 1 ? '–' : format(deviation)]
}

function seconds(value) {
  return value.toFixed(3)
}

function megabytes(bytes) {
  return count(Math.round(bytes / 1e6))
}

export function count(value) {
  return value.toLocaleString('en-GB')
}

/** Cells padded to the width of their column, figures to the right. */
export function table(header, rows) {
  const all = [header, ...rows].map((cells) => cells.map(String))
  const widths = header.map((_, i) => Math.max(...all.map((cells) => cells[i].length)))
  const line = (cells) => `| ${cells.join(' | ')} |`
  const padded = (cells) => line(cells.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]) : cell.padStart(widths[i]))))
  const rule = line(widths.map((width, i) => (i === 0 ? '-'.repeat(width) : `${'-'.repeat(width - 1)}:`)))
  const [first, ...others] = all.map(padded)
  return [first, rule, ...others]
}
