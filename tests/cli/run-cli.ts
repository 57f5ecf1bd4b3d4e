import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeAll, beforeEach } from 'vitest'
import { buildOnce, CLI } from '../support/build-once.ts'

export interface Ran {
  readonly status: number | null
  readonly out: string
  readonly err: string
}

/** A folder of its own for every test, in which the built command line runs as a process of its own. */
export class Bench {
  folder = ''

  constructor() {
    beforeAll(buildOnce, 90_000)
    beforeEach(() => {
      this.folder = mkdtempSync(join(tmpdir(), 'ditchline-'))
    })
    afterEach(() => {
      rmSync(this.folder, { recursive: true, force: true })
    })
  }

  run(...args: readonly string[]): Ran {
    return this.runWith({}, ...args)
  }

  runWith(env: Readonly<Record<string, string>>, ...args: readonly string[]): Ran {
    const { PATH = '', HOME = '' } = process.env
    const result = spawnSync(process.execPath, [CLI, ...args], {
      cwd: this.folder,
      encoding: 'utf8',
      env: { PATH, HOME, ...env },
      timeout: 30_000,
    })
    return { status: result.status, out: result.stdout, err: result.stderr }
  }

  write(name: string, text: string | Uint8Array): string {
    writeFileSync(this.path(name), text)
    return name
  }

  read(name: string): string {
    return readFileSync(this.path(name), 'utf8')
  }

  path(name: string): string {
    return join(this.folder, name)
  }

  /** Every file and folder, sorted. */
  list(): string[] {
    return readdirSync(this.folder, { recursive: true }).map(String).sort()
  }
}

/** A plan that is quickly done. */
export const QUICK = `title: Quay
centre: { width: 8, height: 6 }
bands: [{ name: shingle, width: 2, filler: scallop }]
machine: { reach: [14, 14] }
`
