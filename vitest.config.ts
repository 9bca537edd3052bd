// One Vitest run for the whole project; tests import the built packages, so what ships is what is tested.
import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/properties/config.ts'],
    testTimeout: 60_000,
    hookTimeout: 90_000,
    pool: 'forks',
    maxWorkers: 2,
  },
})
