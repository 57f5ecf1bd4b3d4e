import { mergeConfig } from 'vitest/config'
import base from '../../vitest.config.ts'

/** The tests that the run that counts mutants names. */
const { include: _, ...test } = base.test ?? {}

export default mergeConfig(
  { test },
  { test: { include: (process.env.MUTANTS_TESTS ?? 'tests/**/*.test.ts').split(','), isolate: false } },
)
