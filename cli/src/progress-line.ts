// Progress of a long run on standard error: one bar that is redrawn on a terminal, a plain line every tenth otherwise.
import { Presets, SingleBar } from 'cli-progress'

export interface ProgressLine {
  /** Share done, 0…1; never goes back. */
  update(share: number): void
  stop(): void
}

export function progressLine(what: string): ProgressLine {
  return process.stderr.isTTY ? bar(what) : plain(what)
}

function bar(what: string): ProgressLine {
  const single = new SingleBar(
    { format: `${what} {bar} {percentage} %`, stream: process.stderr, hideCursor: true, clearOnComplete: true },
    Presets.shades_classic,
  )
  single.start(100, 0)
  return {
    update: (share) => single.update(Math.round(100 * share)),
    stop: () => single.stop(),
  }
}

function plain(what: string): ProgressLine {
  let tenths = -1
  return {
    update(share) {
      const now = Math.floor(10 * Math.min(1, share))
      if (now <= tenths) return
      tenths = now
      process.stderr.write(`${what}: ${10 * now} %\n`)
    },
    stop() {},
  }
}
