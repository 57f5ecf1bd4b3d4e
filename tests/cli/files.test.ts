import { spawnSync } from 'node:child_process'
import { existsSync, lstatSync, mkdirSync, symlinkSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { CLI } from '../support/build-once.ts'
import { Bench, QUICK } from './run-cli.ts'

const bench = new Bench()

describe('files that are there already', () => {
  it('are kept unless --replace is given, and then nothing at all is written', () => {
    bench.write('quay.yaml', QUICK)
    mkdirSync(bench.path('quay'))
    bench.write('quay/report.json', 'mine')
    const refused = bench.run('plan', 'quay.yaml')
    expect(refused.status).toBe(2)
    expect(refused.err).toMatch(/report\.json exists; --replace allows it to be replaced/)
    expect(bench.list()).toEqual(['quay', 'quay.yaml', 'quay/report.json'])
    expect(bench.read('quay/report.json')).toBe('mine')
    expect(bench.run('plan', 'quay.yaml', '--replace').status).toBe(0)
    expect(bench.read('quay/report.json')).toMatch(/^{/)
    expect(bench.list().filter((name) => /part|old/.test(name))).toEqual([])
  })

  it('are all kept if one of them is a folder', () => {
    bench.write('quay.yaml', QUICK)
    mkdirSync(bench.path('o/line.json'), { recursive: true })
    bench.write('o/picture.svg', 'mine')
    const { status, err } = bench.run('plan', 'quay.yaml', '--out', 'o', '--replace')
    expect(status).toBe(2)
    expect(err).toMatch(/line\.json exists and is not a plain file/)
    expect(bench.read('o/picture.svg')).toBe('mine')
    expect(bench.list()).toEqual(['o', 'o/line.json', 'o/picture.svg', 'quay.yaml'])
  })

  it('that are symbolic links are not followed', () => {
    bench.write('quay.yaml', QUICK)
    bench.write('precious', 'mine')
    mkdirSync(bench.path('o'))
    symlinkSync(bench.path('precious'), bench.path('o/report.json'))
    symlinkSync(bench.path('nowhere'), bench.path('o/picture.svg'))
    for (const more of [[], ['--replace']]) {
      const { status, err } = bench.run('plan', 'quay.yaml', '--out', 'o', ...more)
      expect(status).toBe(2)
      expect(err).toMatch(/is not a plain file/)
    }
    expect(bench.read('precious')).toBe('mine')
    expect(existsSync(bench.path('nowhere'))).toBe(false)
    expect(lstatSync(bench.path('o/report.json')).isSymbolicLink()).toBe(true)
  })

  it('that a killed process left half-written are cleared away', () => {
    bench.write('quay.yaml', QUICK)
    mkdirSync(bench.path('o'))
    bench.write('o/.report.json.999999999.part', '{')
    bench.write('o/.report.json.txt', 'mine')
    expect(bench.run('plan', 'quay.yaml', '--out', 'o').status).toBe(0)
    expect(bench.list().filter((name) => name.startsWith('o/.'))).toEqual(['o/.report.json.txt'])
  })
})

describe('the folder for the output', () => {
  it('that is a file is refused', () => {
    bench.write('quay.yaml', QUICK)
    bench.write('o', 'mine')
    for (const out of ['o', 'o/deeper']) {
      const { status, err } = bench.run('plan', 'quay.yaml', '--out', out)
      expect(status).toBe(2)
      expect(err).toMatch(/not a folder|where a folder is needed/)
    }
    expect(bench.read('o')).toBe('mine')
    expect(bench.list()).toEqual(['o', 'quay.yaml'])
  })

  it('that the plan file itself stands in place of is refused', () => {
    bench.write('quay', QUICK)
    expect(bench.run('plan', 'quay').status).toBe(2)
    expect(bench.read('quay')).toBe(QUICK)
  })

  it.each(['..yaml', '...yaml', '.yaml'])('for a plan file called %s lies here, not above', (name) => {
    bench.write(name, QUICK)
    const { status } = bench.run('plan', name)
    const folder = name === '.yaml' ? '.yaml' : 'quilt'
    expect(status).toBe(name === '.yaml' ? 2 : 0)
    expect(
      bench.list().every((file) => file === name || file === folder || file.startsWith(`${folder}/`)),
    ).toBe(true)
  })

  it('may have folders above it that are made as well', () => {
    bench.write('quay.yaml', QUICK)
    expect(bench.run('order', 'quay.yaml', '--out', 'a/b/c').status).toBe(0)
    expect(bench.list()).toContain('a/b/c/quay-order.pdf')
  })

  it.each(['../../up', '/etc/passwd', '..', 'a\\b', 'مرسى', '  '])(
    'is the only place that the title %j writes to',
    (title) => {
      bench.write('quay.yaml', QUICK.replace('Quay', JSON.stringify(title)))
      expect(bench.run('order', 'quay.yaml', '--format', 'svg', '--out', 'o').status).toBe(0)
      expect(bench.list().filter((name) => !/^(quay\.yaml|o|o\/[a-z0-9-]+\.svg)$/.test(name))).toEqual([])
      expect(bench.list()).toHaveLength(3)
    },
  )
})

describe('a pipe', () => {
  const shell = (command: string) =>
    spawnSync('/bin/bash', ['--norc', '-c', `set -o pipefail; ${command}`], {
      cwd: bench.folder,
      encoding: 'utf8',
      env: { PATH: process.env.PATH ?? '', NODE: process.execPath, CLI },
    })

  it('that is closed early is the reader’s choice', () => {
    const { status, stdout, stderr } = shell('"$NODE" "$CLI" motifs --json | head -1')
    expect([status, stdout, stderr]).toEqual([0, '{\n', ''])
  })

  it.skipIf(!existsSync('/dev/full'))('into a full disk is told, not swallowed', () => {
    const { status, stderr } = shell('"$NODE" "$CLI" motifs > /dev/full')
    expect(status).toBe(2)
    expect(stderr).toMatch(/the disk is full/)
  })
})
