// Changes the code in small ways and tells which changes no test notices: npm run mutants -- src/plan src/stitch
// A folder takes hours, a file minutes: npm run mutants -- src/plan/length.ts
// Only the tests that mirror the path are asked: tests/plan/ for a folder, tests/plan/length.test.ts for a file that has
// a test of its own. Others can be named: npm run mutants -- src/plan/plan.ts --tests tests/plan/keys.test.ts,tests/plan/drawn.test.ts
// (paths with commas between them are counted together). The score is a lower bound of what all tests notice.
import { existsSync, statSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { Stryker } from '@stryker-mutator/core'

const FOLDERS = ['src/plan', 'src/stitch', 'src/route', 'src/motif']

/** The files to change, and the tests that have to notice. */
function taskOf(path: string, named: string | undefined): { mutate: string[]; tests: string } {
  if (named !== undefined) return { mutate: path.split(','), tests: named }
  if (statSync(path).isDirectory())
    return { mutate: [`${path}/**/*.ts`], tests: `${path.replace(/^src/, 'tests')}/**/*.test.ts` }
  const own = path.replace(/^src/, 'tests').replace(/\.ts$/, '.test.ts')
  return {
    mutate: [path],
    tests: existsSync(own) ? own : `${own.slice(0, own.lastIndexOf('/'))}/**/*.test.ts`,
  }
}

/** Runs the tests against each mutant; says what share of them was noticed. */
async function countMutants(path: string, named: string | undefined): Promise<void> {
  const { mutate, tests } = taskOf(path, named)
  // The runner's own process reads it.
  process.env.MUTANTS_TESTS = tests
  const results = await new Stryker({
    mutate,
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner'],
    vitest: { configFile: 'tests/tools/mutants.config.ts', related: false },
    coverageAnalysis: 'perTest',
    ignoreStatic: true,
    concurrency: 1,
    dryRunTimeoutMinutes: 60,
    timeoutMS: 2_000,
    timeoutFactor: 3,
    ignorePatterns: ['dist', 'coverage', 'reports', 'out'],
    reporters: ['progress-append-only', 'clear-text', 'json'],
    jsonReporter: {
      fileName: `reports/mutants-${path.replace(/,.*/, '-and-others').replaceAll('/', '-')}.json`,
    },
    clearTextReporter: { allowColor: false, logTests: false, allowEmojis: false, reportTests: false },
    allowConsoleColors: false,
  }).runMutationTest()
  const counted = results.filter(
    ({ status }) => !['CompileError', 'RuntimeError', 'Ignored'].includes(status),
  )
  const killed = counted.filter(({ status }) => status === 'Killed' || status === 'Timeout').length
  const share = counted.length > 0 ? (100 * killed) / counted.length : 100
  console.log(`${path}: ${killed} of ${counted.length} mutants killed, ${share.toFixed(1)} %`)
}

const { positionals, values } = parseArgs({
  allowPositionals: true,
  options: { tests: { type: 'string' } },
})
for (const path of positionals.length > 0 ? positionals : FOLDERS) await countMutants(path, values.tests)
