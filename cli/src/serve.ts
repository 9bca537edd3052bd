// `serve`: its flags. What it runs is loaded only when it runs, so that the other commands start at once.
import { Command } from 'commander'
import type { ServeFlags } from './config.js'
import { wholeNumber } from './whole-number.js'

export function serveCommand(): Command {
  return new Command('serve')
    .description('Run the service: API and worker in one process.')
    .option('--port <port>', 'port to listen on, 0 for a free one (default: PORT or 8080)', wholeNumber(0, 65_535))
    .option('--host <host>', 'address to listen on (default: HOST or 127.0.0.1)')
    .option('--data <folder>', 'folder of the embedded store and of mails (default: DATA_FOLDER or data)')
    .option('--catalogue <folder>', 'catalogue to load (default: the one in the store, or the demonstration one)')
    .action(async (flags: ServeFlags) => {
      const { readServeConfig } = await import('./config.js')
      const config = readServeConfig(flags)
      const { runService } = await import('./service.js')
      await runService(config)
    })
}
