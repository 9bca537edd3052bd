// Child of the lock test: locks a folder, says so, and holds it until it is killed or told to let go.
// Usage: node hold-folder.mjs <folder>

import { lockFolder } from '@ductwright/records/embedded/folder-lock'

try {
  const lock = await lockFolder(process.argv[2])
  process.stdout.write('locked\n')
  const keepAlive = setInterval(() => undefined, 1000)
  process.stdin.once('data', async () => {
    await lock.release()
    clearInterval(keepAlive)
    process.stdin.destroy()
  })
} catch (error) {
  process.stdout.write(`refused ${error.name} ${error.message}\n`)
}
