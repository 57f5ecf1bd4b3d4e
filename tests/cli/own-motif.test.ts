import { mkdirSync, readFileSync, symlinkSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { Bench } from './run-cli.ts'

const bench = new Bench()
const SVG = readFileSync(new URL('../../samples/breakwater.svg', import.meta.url), 'utf8')

const planWith = (drawing: string) => `title: Pier
centre: { width: 8, height: 6 }
motifs: { breaker: { drawing: ${drawing} } }
bands: [{ name: shingle, width: 2, filler: breaker }]
machine: { reach: [14, 14] }
`

describe('a drawing beside a plan', () => {
  it('becomes a motif, also below a folder', () => {
    mkdirSync(bench.path('drawn'))
    bench.write('drawn/breaker.svg', SVG)
    bench.write('pier.yaml', planWith('drawn/breaker.svg'))
    const { status, err } = bench.run('plan', 'pier.yaml', '--out', 'o')
    expect([status, err]).toEqual([0, ''])
    const report = JSON.parse(bench.read('o/report.json'))
    expect(report.bands[0]).toMatchObject({ filler: 'breaker' })
    expect(report.line.threadStarts).toBe(1)
  })

  it('is not read where no command needs it, and cutting lists can be had of it', () => {
    bench.write('breaker.svg', SVG)
    bench.write('pier.yaml', planWith('breaker.svg'))
    expect(bench.run('cut', 'pier.yaml').status).toBe(0)
  })

  it.each([
    [
      'climbs out',
      '../breaker.svg',
      /is "\.\.\/breaker\.svg"; expected the name of an SVG file beside the plan/,
    ],
    ['climbs out further on', 'a/../../b.svg', /expected the name of an SVG file beside the plan/],
    ['is given from the root', '/etc/hosts.svg', /expected the name of an SVG file beside the plan/],
    ['is no SVG file', 'pier.yaml', /expected the name of an SVG file beside the plan/],
    ['is not there', 'none.svg', /none\.svg: there is no such file/],
    ['is a folder', 'folder.svg', /folder\.svg is a folder/],
    ['is a link to a file elsewhere', 'link.svg', /link\.svg lies outside the folder of the plan/],
    [
      'lies behind a link to a folder elsewhere',
      'away/breaker.svg',
      /away\/breaker\.svg lies outside the folder/,
    ],
    ['is too large', 'large.svg', /large\.svg has 300\d\d\d bytes; at most 262144 are read/],
    ['is no text', 'bytes.svg', /bytes\.svg is not text in UTF-8/],
    ['holds two paths', 'two.svg', /two\.svg:3:1: the drawing has 2 paths/],
  ])('is refused with its place in the plan if it %s', (_, name, message) => {
    mkdirSync(bench.path('quilt/folder.svg'), { recursive: true })
    mkdirSync(bench.path('elsewhere'))
    bench.write('elsewhere/breaker.svg', SVG)
    bench.write('breaker.svg', SVG)
    symlinkSync('../breaker.svg', bench.path('quilt/link.svg'))
    symlinkSync('../elsewhere', bench.path('quilt/away'))
    bench.write('quilt/large.svg', SVG + ' '.repeat(300_000))
    bench.write('quilt/bytes.svg', Uint8Array.of(0x3c, 0xff, 0xfe))
    bench.write('quilt/two.svg', '<svg>\n<path d="M0 0L1 1"/>\n<path d="M0 0L1 1"/>\n</svg>')
    bench.write('quilt/pier.yaml', planWith(name))
    const { status, out, err } = bench.run('plan', 'quilt/pier.yaml', '--out', 'o')
    expect([status, out]).toEqual([2, ''])
    expect(err).toMatch(/^error quilt\/pier\.yaml:3:31: motifs\.breaker\.drawing: /)
    expect(err).toMatch(message)
    expect(bench.list()).not.toContain('o')
  })
})

describe('the gallery', () => {
  it('draws one motif on a page without scripts, and with --png as a picture', () => {
    const { status, out } = bench.run('motifs', 'scallop', '--gallery', 'g', '--png')
    expect([status, out]).toEqual([0, 'Wrote index.html, motifs-scallop.png to g\n'])
    expect(bench.read('g/index.html')).toMatch(/<article id="motifs-scallop"/)
    expect(bench.read('g/index.html')).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/)
    expect(readFileSync(bench.path('g/motifs-scallop.png')).subarray(1, 4).toString()).toBe('PNG')
  })

  it('draws a drawing of your own', () => {
    bench.write('breaker.svg', SVG)
    expect(bench.run('motifs', 'breaker.svg').out).toMatch(/^breaker: .*\nsuits bands of 0\.5 - 8 in/)
    expect(bench.run('motifs', 'breaker.svg', '--gallery', 'g').status).toBe(0)
    expect(bench.read('g/index.html')).toContain('a drawing of your own')
  })

  it('is not written over, and a broken drawing is told with its place', () => {
    bench.write('breaker.svg', '<svg>\n  <rect/>\n</svg>')
    expect(bench.run('motifs', 'breaker.svg', '--gallery', 'g')).toMatchObject({
      status: 2,
      err: expect.stringMatching(/^error breaker\.svg:2:3: the drawing has a <rect>/),
    })
    expect(bench.list()).toEqual(['breaker.svg'])
    expect(bench.run('motifs', 'wave', '--gallery', 'g').status).toBe(0)
    expect(bench.run('motifs', 'wave', '--gallery', 'g').err).toMatch(/--replace allows/)
    expect(bench.run('motifs', 'wave', '--gallery', 'g', '--replace').status).toBe(0)
  })
})
