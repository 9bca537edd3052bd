// The command line: one command a file; this file puts them together, maps every ending to an exit code, and keeps
// standard output quiet when its reader has gone.
import { Command, CommanderError } from 'commander'
import { benchCommand } from './bench.js'
import { catalogueCommand } from './catalogue-check.js'
import { complaint } from './complaint.js'
import { evaluateCommand } from './evaluate.js'
import { BAD_INPUT, DONE } from './exit-codes.js'
import { explainCommand } from './explain.js'
import { rerunCommand } from './rerun.js'
import { serveCommand } from './serve.js'
import { sweepCommand } from './sweep.js'
import { verifyCommand } from './verify.js'
import { watchCommand } from './watch.js'

function program(): Command {
  const all = new Command('ductwright')
    .description('What do I need for X km/h? Answers it for electric ducted-fan model jets, from a catalogue of parts.')
    .addHelpText(
      'after',
      '\nExit codes: 0 done, 1 the answer is no (nothing reaches the target, or a setup is refused), 2 bad input.',
    )
  for (const command of commands()) all.addCommand(command)
  // Commander ends the process itself otherwise, with 1 for a mistyped option.
  for (const command of [all, ...all.commands, ...all.commands.flatMap((one) => one.commands)]) command.exitOverride()
  return all
}

function commands(): Command[] {
  return [
    sweepCommand(),
    explainCommand(),
    evaluateCommand(),
    benchCommand(),
    verifyCommand(),
    rerunCommand(),
    serveCommand(),
    watchCommand(),
    catalogueCommand(),
  ]
}

async function main(): Promise<void> {
  try {
    await program().parseAsync()
  } catch (error) {
    process.exitCode = ending(error)
  }
}

function ending(error: unknown): number {
  // Commander has printed its own line by now; asking for help is not a mistake.
  if (error instanceof CommanderError) return error.exitCode === 0 ? DONE : BAD_INPUT
  const lines = complaint(error)
  if (lines === null) throw error
  for (const line of lines) process.stderr.write(`${line}\n`)
  return BAD_INPUT
}

for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit()
    throw error
  })
}

await main()
