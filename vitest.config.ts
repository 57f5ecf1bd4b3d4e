import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    setupFiles: ['tests/support/fail-on-console.ts'],
    testTimeout: 60_000,
    maxWorkers: 2,
    coverage: { include: ['src/**', 'motifs/**'], exclude: ['src/page/**', 'src/cli/**'] },
  },
})
