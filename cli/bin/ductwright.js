#!/usr/bin/env node
// Starts the built command line; says what to do when it has not been built yet.
import { existsSync } from 'node:fs'

const built = new URL('../dist/main.js', import.meta.url)
if (existsSync(built)) {
  await import(built.href)
} else {
  process.stderr.write('ductwright is not built yet: run "npm ci" and "npm run build" in the project folder first.\n')
  process.exitCode = 2
}
