import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, readdirSync, rmSync, statSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const root = fileURLToPath(new URL('../../', import.meta.url))

/** The built command line. */
export const CLI = `${root}dist/cli/main.js`

/** The built page. */
export const PAGE = `${root}dist/page/index.html`

const newest = (folder: string): number =>
  Math.max(
    ...readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => statSync(`${entry.parentPath}/${entry.name}`).mtimeMs),
  )

const isFresh = (): boolean => {
  const sources = [newest(`${root}src`), newest(`${root}motifs`), statSync(`${root}vite.config.ts`).mtimeMs]
  return [CLI, PAGE].every((built) => existsSync(built) && statSync(built).mtimeMs >= Math.max(...sources))
}

/** Builds the command line and the page if they are missing or older than their sources; only one of several test files does it. */
export function buildOnce(): void {
  const lock = `${root}dist/building`
  mkdirSync(`${root}dist`, { recursive: true })
  for (const start = Date.now(); !isFresh(); ) {
    try {
      mkdirSync(lock)
    } catch {
      // Another test file builds: wait for it, unless it was stopped half-way.
      if (Date.now() - start > 60_000) rmSync(lock, { recursive: true, force: true })
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 100)
      continue
    }
    const { status, stderr } = spawnSync(process.execPath, ['tests/tools/build.mjs'], {
      cwd: root,
      encoding: 'utf8',
    })
    rmSync(lock, { recursive: true, force: true })
    if (status !== 0) throw new Error(`the build failed: ${stderr}`)
    return
  }
}
