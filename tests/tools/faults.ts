// Breaks off writes in every way that can be arranged here and checks that files that were there stay whole.
// npm run faults -- --kills 40
import { spawn, spawnSync } from 'node:child_process'
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { buildOnce, CLI } from '../support/build-once.ts'

const { values } = parseArgs({ options: { kills: { type: 'string', default: '40' } } })

const PLAN = `title: Quay
centre: { width: 8, height: 6 }
bands: [{ name: shingle, width: 2, filler: scallop }]
machine: { reach: [14, 14] }
`

/** A plan whose files are larger than the small disk. */
const WIDE = PLAN.replace('width: 8, height: 6', 'width: 30, height: 30')

/** Every command that writes, and what its files are called. */
const COMMANDS: Readonly<Record<string, readonly string[]>> = {
  plan: ['plan', 'quay.yaml', '--page'],
  sheets: ['sheets', 'quay.yaml'],
  order: ['order', 'quay.yaml'],
  'path as G-code': ['path', 'quay.yaml', '--format', 'gcode'],
  'path as DXF': ['path', 'quay.yaml', '--format', 'dxf'],
  'path as CSV': ['path', 'quay.yaml', '--format', 'csv'],
  'path as SVG': ['path', 'quay.yaml', '--format', 'svg'],
}

type Files = ReadonlyMap<string, string>

let faults = 0
const findings: string[] = []

function check(isWhole: boolean, what: string): void {
  faults++
  if (!isWhole) findings.push(what)
}

const bench = mkdtempSync(join(tmpdir(), 'ditchline-faults-'))
const run = (args: readonly string[], cwd = bench) =>
  spawnSync(process.execPath, [CLI, ...args], { cwd, encoding: 'utf8', timeout: 60_000 })

/** The files of a folder that a user would see. */
const visible = (folder: string): Files =>
  new Map(
    (existsSync(folder) ? readdirSync(folder) : [])
      .filter((name) => !name.startsWith('.'))
      .map((name) => [name, readFileSync(join(folder, name), 'latin1')]),
  )

const isSame = (a: Files, b: Files): boolean =>
  a.size === b.size && [...a].every(([name, text]) => b.get(name) === text)

/** Every file is as it was before or as it is to be, whole. */
const isOldOrNew = (now: Files, before: Files, after: Files): boolean =>
  [...before.keys()].every((name) => now.has(name)) &&
  [...now].every(([name, text]) => text === before.get(name) || text === after.get(name))

/** Kills a command a while after its start, over files that are there already. */
async function killAt(args: readonly string[], folder: string, afterMs: number): Promise<void> {
  const child = spawn(process.execPath, [CLI, ...args, '--out', folder, '--replace'], {
    cwd: bench,
    stdio: 'ignore',
  })
  const ended = new Promise((resolve) => child.on('exit', resolve))
  const timer = setTimeout(() => child.kill('SIGKILL'), afterMs)
  await ended
  clearTimeout(timer)
}

async function kills(): Promise<void> {
  const each = Math.max(1, Math.round(Number(values.kills) / Object.keys(COMMANDS).length))
  for (const [name, args] of Object.entries(COMMANDS)) {
    const start = Date.now()
    run([...args, '--out', 'new'])
    const usual = Date.now() - start
    const after = visible(join(bench, 'new'))
    const before: Files = new Map([...after.keys()].map((file) => [file, `mine: ${file}`]))
    for (let i = 0; i < each; i++) {
      const folder = join(bench, 'old')
      mkdirSync(folder)
      for (const [file, text] of before) writeFileSync(join(folder, file), text)
      // Most of the kills fall near the end, where the files are written.
      await killAt(args, 'old', usual * (0.55 + (0.55 * i) / each))
      check(
        isOldOrNew(visible(folder), before, after),
        `${name} killed at ${i}: a file is neither old nor new`,
      )
      run([...args, '--out', 'old', '--replace'])
      check(isSame(visible(folder), after), `${name} killed at ${i}: cannot be run again`)
      check(readdirSync(folder).length === after.size, `${name} killed at ${i}: leftovers stay`)
      rmSync(folder, { recursive: true })
    }
    rmSync(join(bench, 'new'), { recursive: true })
  }
}

/** A disk that holds less than what is to be written. */
function fullDisk(): string {
  const disk = join(bench, 'disk')
  mkdirSync(disk)
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=32k', 'tmpfs', disk], { encoding: 'utf8' })
  if (mounted.status !== 0) return `skipped: mounting a small disk is refused here (${mounted.stderr.trim()})`
  try {
    mkdirSync(join(disk, 'o'))
    writeFileSync(join(disk, 'o', 'picture.svg'), 'mine')
    const before = visible(join(disk, 'o'))
    const { status, stderr } = run(['plan', 'wide.yaml', '--page', '--out', join(disk, 'o'), '--replace'])
    check(status === 2 && /the disk is full/.test(stderr), `full disk: ended with ${status}: ${stderr}`)
    check(isSame(visible(join(disk, 'o')), before), 'full disk: a file changed')
    check(readdirSync(join(disk, 'o')).length === 1, 'full disk: leftovers stay')
    return 'done'
  } finally {
    spawnSync('umount', [disk])
  }
}

/** A file may grow to 8 KiB only: what a full disk does to a write, without a disk. */
function fileLimit(): void {
  const folder = join(bench, 'limited')
  mkdirSync(folder)
  writeFileSync(join(folder, 'line.json'), 'mine')
  const before = visible(folder)
  const { status } = spawnSync(
    '/bin/sh',
    [
      '-c',
      `trap '' XFSZ; ulimit -f 8; exec "$0" "$@"`,
      process.execPath,
      CLI,
      'plan',
      'wide.yaml',
      '--out',
      'limited',
      '--replace',
    ],
    { cwd: bench, encoding: 'utf8' },
  )
  check(status === 2, `file limit: ended with ${status}`)
  check(isSame(visible(folder), before), 'file limit: a file changed')
  check(readdirSync(folder).length === 1, 'file limit: leftovers stay')
}

/** A folder that may be read but not written to; the superuser, who may everywhere, becomes nobody for it. */
function noPermission(): string {
  const nobody = process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {}
  const as = (...args: readonly string[]) =>
    spawnSync(process.execPath, [CLI, ...args], { cwd: bench, encoding: 'utf8', ...nobody })
  chmodSync(bench, 0o755)
  if (as('--version').status !== 0) return 'skipped: another user cannot start the program here'
  const folder = join(bench, 'closed')
  mkdirSync(folder)
  writeFileSync(join(folder, 'line.json'), 'mine')
  chmodSync(folder, 0o555)
  const before = visible(folder)
  for (const out of ['closed', 'closed/deeper']) {
    const { status, stderr } = as('plan', 'quay.yaml', '--out', out, '--replace')
    const isTold = status === 2 && /permission is refused/.test(stderr)
    check(isTold, `no permission: ended with ${status}: ${stderr}`)
  }
  chmodSync(join(bench, 'quay.yaml'), 0)
  const unread = as('plan', 'quay.yaml')
  check(unread.status === 2 && /permission is refused/.test(unread.stderr), `unreadable: ${unread.stderr}`)
  chmodSync(join(bench, 'quay.yaml'), 0o644)
  chmodSync(folder, 0o755)
  check(isSame(visible(folder), before), 'no permission: a file changed')
  return 'done'
}

function closedPipe(): void {
  for (const command of ['motifs --json', 'plan quay.yaml --json --out piped --replace', 'schema']) {
    const { status, stderr } = spawnSync(
      '/bin/sh',
      ['-c', `{ "${process.execPath}" "${CLI}" ${command}; echo "status $?" >&2; } | true`],
      {
        cwd: bench,
        encoding: 'utf8',
      },
    )
    check(
      status === 0 && /^status 0$/m.test(stderr) && !/^\s+at /m.test(stderr),
      `closed pipe: ${command}: ${stderr}`,
    )
  }
}

try {
  buildOnce()
  writeFileSync(join(bench, 'quay.yaml'), PLAN)
  writeFileSync(join(bench, 'wide.yaml'), WIDE)
  await kills()
  console.log(`killed while writing: ${Object.keys(COMMANDS).length} kinds of output`)
  console.log(`full disk: ${fullDisk()}`)
  fileLimit()
  console.log(`permission removed: ${noPermission()}`)
  closedPipe()
} finally {
  rmSync(bench, { recursive: true, force: true })
}
for (const finding of findings) console.log(finding)
console.log(`${faults} checks, ${findings.length} findings`)
process.exitCode = findings.length > 0 ? 1 : 0
