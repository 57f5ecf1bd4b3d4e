// Changes the code in small ways and tells which changes no test of the folder notices: npm run mutants -- src/plan src/stitch
// A folder takes from minutes (src/plan) to hours (src/route, src/motif); a file takes a minute: npm run mutants -- src/plan/length.ts
// A mutant counts as killed only by the tests of the folder that mirrors it, so the score is a lower bound.
import { statSync } from 'node:fs'
import { Stryker } from '@stryker-mutator/core'

const FOLDERS = ['src/plan', 'src/stitch', 'src/route', 'src/motif']

/** The files to change, and the folder whose tests have to notice. */
function taskOf(path: string): { mutate: string[]; tests: string } {
  const folder = /^src\/(\w+)/.exec(path)?.[1]
  if (folder === undefined) throw new Error(`${path} is not below src/`)
  const files = statSync(path).isDirectory() ? `${path}/**/*.ts` : path
  return { mutate: [files], tests: `tests/${folder}` }
}

/** Runs the tests against each mutant; says what share of them was noticed. */
async function countMutants(path: string): Promise<void> {
  const { mutate, tests } = taskOf(path)
  process.env.MUTANTS_TESTS = tests
  const results = await new Stryker({
    mutate,
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner'],
    vitest: { configFile: 'tests/tools/mutants.config.ts', related: false },
    coverageAnalysis: 'perTest',
    ignoreStatic: true,
    concurrency: 1,
    timeoutMS: 20_000,
    timeoutFactor: 4,
    ignorePatterns: ['dist', 'coverage', 'reports'],
    reporters: ['clear-text', 'json'],
    jsonReporter: { fileName: `reports/mutants-${path.replaceAll('/', '-')}.json` },
    clearTextReporter: { allowColor: false, logTests: false, allowEmojis: false, reportTests: false },
    allowConsoleColors: false,
  }).runMutationTest()
  const known = results.filter(({ status }) => !['CompileError', 'RuntimeError', 'Ignored'].includes(status))
  const killed = known.filter(({ status }) => status === 'Killed' || status === 'Timeout').length
  const share = known.length > 0 ? (100 * killed) / known.length : 100
  console.log(`${path}: ${killed} of ${known.length} mutants killed, ${share.toFixed(1)} %`)
}

const given = process.argv.slice(2)
for (const path of given.length > 0 ? given : FOLDERS) await countMutants(path)
