// Progress of a long run on standard error, with the time left at the pace so far: one bar that is redrawn on a terminal, a
// plain line every tenth otherwise.
import { Presets, SingleBar } from 'cli-progress'

export interface ProgressLine {
  /** Share done, 0…1; never goes back. */
  update(share: number): void
  stop(): void
}

export function progressLine(what: string): ProgressLine {
  return process.stderr.isTTY ? bar(what) : plain(what)
}

/** Words for the time left after a share of the work, done since `start` (ms): none before the pace is known. */
export function timeLeft(share: number, elapsed: number): string {
  if (!(share > 0.02 && share < 1)) return ''
  const seconds = Math.ceil((elapsed * (1 - share)) / share / 1000)
  return seconds < 90 ? `, about ${seconds} s left` : `, about ${Math.round(seconds / 60)} min left`
}

function bar(what: string): ProgressLine {
  const start = performance.now()
  const single = new SingleBar(
    { format: `${what} {bar} {percentage} %{left}`, stream: process.stderr, hideCursor: true, clearOnComplete: true },
    Presets.shades_classic,
  )
  single.start(100, 0, { left: '' })
  return {
    update: (share) => single.update(Math.round(100 * share), { left: timeLeft(share, performance.now() - start) }),
    stop: () => single.stop(),
  }
}

function plain(what: string): ProgressLine {
  const start = performance.now()
  let tenths = -1
  return {
    update(share) {
      const now = Math.floor(10 * Math.min(1, share))
      if (now <= tenths) return
      tenths = now
      process.stderr.write(`${what}: ${10 * now} %${timeLeft(share, performance.now() - start)}\n`)
    },
    stop() {},
  }
}
