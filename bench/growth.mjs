// How the time of a search grows: with what there is to choose from, and with the size of the front that comes out.
import { plotPage, plotPanel } from './plot.mjs'
import { marketName, SIZES } from './questions.mjs'
import { WHOLE_SIZES } from './sweeps.mjs'

/** The plots as SVG text. */
export function growthPlot(rows) {
  const named = (name) => rows.find((row) => row.name === name)
  const sizes = Object.keys(SIZES).map((size) => named(marketName(size, 9)))
  const duties = (size) => [4, 9, 26].map((count) => named(marketName(size, count)))
  const whole = [...WHOLE_SIZES.map((size) => named(marketName(size, 9, true))), named('demo, whole front')]
  const narrowed = rows.filter(({ name }) => !name.includes('whole front'))
  const byRaw = plotPanel({
    title: 'One thread, by what there is to choose from',
    x: 'raw combinations',
    y: 'time, s',
    series: [
      { name: '9 duties, four sizes of catalogue', joined: true, points: sizes.map(searchedByRaw) },
      { name: 'all worked through, extrapolated', joined: true, dashed: true, points: sizes.map(bruteByRaw) },
      {
        name: `${SIZES.medium.join('×')}, 4, 9 and 26 duties`,
        joined: true,
        points: duties('medium').map(searchedByRaw),
      },
      {
        name: `${SIZES.large.join('×')}, 4, 9 and 26 duties`,
        joined: true,
        points: duties('large').map(searchedByRaw),
      },
      {
        name: 'demo, narrowed, 6 and 26 duties',
        points: ['demo, narrowed', 'demo, 2 % duties'].map(named).map(searchedByRaw),
      },
      { name: 'demo, whole front', points: [searchedByRaw(named('demo, whole front'))] },
    ],
  })
  const byFront = plotPanel({
    title: 'One thread, by the size of the front',
    x: 'members of the front',
    y: 'time, s',
    series: [
      { name: 'whole fronts, three catalogues', points: whole.map(searchedByFront) },
      { name: 'narrowed questions of the plot above', points: narrowed.map(searchedByFront) },
    ],
  })
  return plotPage([byRaw, byFront], 'Time of a search against combinations and against the size of the front')
}

function searchedByRaw({ raw, one }) {
  return [raw, one.mean]
}

function bruteByRaw({ raw, brute }) {
  return [raw, brute.seconds]
}

function searchedByFront({ front, one }) {
  return [front, one.mean]
}
