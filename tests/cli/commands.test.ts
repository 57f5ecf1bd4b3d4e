import { describe, expect, it } from 'vitest'
import { Bench, QUICK } from './run-cli.ts'

const bench = new Bench()

describe('a command that is done', () => {
  it('ends with 0, writes its files and says so on standard output', () => {
    bench.write('quay.yaml', QUICK)
    const { status, out, err } = bench.run('plan', 'quay.yaml')
    expect([status, err]).toEqual([0, ''])
    expect(out).toMatch(/Wrote picture\.svg, report\.json, line\.json to quay\n$/)
    expect(bench.list()).toEqual([
      'quay',
      'quay.yaml',
      'quay/line.json',
      'quay/picture.svg',
      'quay/report.json',
    ])
  })

  it('prints the report alone with --json', () => {
    bench.write('quay.yaml', QUICK)
    const { out } = bench.run('plan', 'quay.yaml', '--json', '--out', 'o')
    expect(`${out}`).toBe(bench.read('o/report.json'))
  })

  it('gives the same bytes every time', () => {
    bench.write('quay.yaml', QUICK)
    bench.run('sheets', 'quay.yaml', '--out', 'a')
    bench.run('sheets', 'quay.yaml', '--out', 'b')
    expect(bench.read('a/quay-sheets.pdf')).toBe(bench.read('b/quay-sheets.pdf'))
  })

  it('takes back what new wrote', () => {
    expect(bench.run('new', 'my.yaml').status).toBe(0)
    expect(bench.run('order', 'my.yaml', '--out', 'o').status).toBe(0)
    expect(bench.list()).toContain('o/lighthouse-raffle-quilt-order.pdf')
  })
})

describe('bad input', () => {
  it('ends with 2, tells every problem with its place and writes nothing', () => {
    bench.write('bad.yaml', 'centre: { width: x, height: 9 }\nbands: [{ width: 2, filler: scalop }]\n')
    const { status, out, err } = bench.run('plan', 'bad.yaml')
    expect([status, out]).toEqual([2, ''])
    expect(err).toMatch(/^error bad\.yaml:1:18: centre\.width: is "x"; /)
    expect(err).toMatch(
      /^error bad\.yaml:2:29: bands\[0\]\.filler: is "scalop"; .*\(did you mean scallop\?\)$/m,
    )
    expect(err).toMatch(/2 problems; nothing was written\n$/)
    expect(bench.list()).toEqual(['bad.yaml'])
  })

  it.each([
    ['a folder', ['plan', '.'], /is a folder; give a file/],
    ['a file that is not there', ['plan', 'none.yaml'], /there is no such file/],
    ['a file below a file', ['plan', 'a.yaml/b.yaml'], /a part of the path is not a folder/],
    ['a name that is too long', ['plan', 'x'.repeat(5000)], /the name is too long/],
    ['bytes that are no text', ['plan', 'bytes.yaml'], /is not text in UTF-8/],
    ['an empty file', ['plan', 'empty.yaml'], /the file is empty/],
    ['an unknown command', ['pla', 'a.yaml'], /unknown command 'pla'\n\(Did you mean plan\?\)/],
    [
      'an unknown option',
      ['plan', 'a.yaml', '--replce'],
      /unknown option '--replce'\n\(Did you mean --replace\?\)/,
    ],
    ['a missing file', ['plan'], /missing required argument 'file'/],
    ['a missing format', ['path', 'a.yaml'], /required option '-f, --format <format>' not specified/],
    ['an unknown format', ['path', 'a.yaml', '-f', 'x'], /Allowed choices are svg, dxf, gcode, csv/],
    ['a wrong length', ['sheets', 'a.yaml', '--margin', '1,5'], /Expected a length/],
    ['an unknown filler', ['motifs', 'scalop'], /did you mean scallop\?/],
    ['the filler constructor', ['motifs', 'constructor'], /there is no filler "constructor"/],
  ])('%s', (_, args, message) => {
    bench.write('a.yaml', QUICK)
    bench.write('bytes.yaml', Uint8Array.of(0x61, 0xff, 0xfe, 0x00))
    bench.write('empty.yaml', '')
    const before = bench.list()
    const { status, out, err } = bench.run(...args)
    expect([status, out]).toEqual([2, ''])
    expect(err).toMatch(message)
    expect(err).not.toMatch(/^\s+at /m)
    expect(bench.list()).toEqual(before)
  })

  it('is told without colour in a pipe, whatever the environment', () => {
    for (const env of [{}, { NO_COLOR: '1' }, { CI: 'true' }])
      expect(bench.runWith(env, 'plan', 'none').err).not.toContain('\u001b')
  })

  it('has no control characters in what it tells of a hostile name', () => {
    const { status, err } = bench.run('plan', 'a\u001b[2J\u202eb.yaml')
    expect(status).toBe(2)
    for (const sign of ['\u001b', '\u202e']) expect(err).not.toContain(sign)
  })
})

describe('help', () => {
  it('tells the commands', () => {
    expect(bench.run('--help').out).toMatchInlineSnapshot(`
      "Usage: ditchline [options] [command]

      Plans one continuous quilting line for a quilt with borders.

      Options:
        -V, --version             say which version this is
        -h, --help                say how to use it

      Commands:
        plan [options] <file>     the main job: plan the line, write picture, report
                                  and line, and sum it up
        sheets [options] <file>   tracing sheets: the line at full size, as PDF
        order [options] <file>    the order of work, one area a figure
        path [options] <file>     machine path for a computerised frame
        compare [options] <file>  ways to work the quilt side by side, and which to
                                  take
        motifs [options] [name]   the fillers, their widths and values
        thread [options] <file>   which thread blends with the fabrics, and which
                                  shows
        cut [options] <file>      what to cut for borders, binding, backing and
                                  batting
        schema [format]           print the JSON Schema of a file format
        new [options] <file>      write a commented plan file to start from
        page [options]            the page: plan by looking, in the browser, on this
                                  machine only
        help [command]            say how to use a command
      "
    `)
  })

  it('tells what a command takes', () => {
    expect(bench.run('plan', '--help').out).toMatchInlineSnapshot(`
      "Usage: ditchline plan [options] <file>

      the main job: plan the line, write picture, report and line, and sum it up

      Arguments:
        file                 plan file (YAML or JSON)

      Options:
        -o, --out <folder>   where to write; a folder named after the plan file unless
                             said
        --replace            allow files that are there already to be replaced
        --no-marks           leave out: start, end, crossings, areas and arrows
        --no-fabrics         leave out: fabrics
        --no-bobbins         leave out: where the bobbin is changed
        --no-gaps            leave out: the largest places without stitching
        --swatch             the thread on each band's fabric, under the quilt
        --decimals <number>  decimals; 2 unless said
        --png                write the picture as PNG as well
        --page               write the report as a page to print or keep as well
        --json               print the report as JSON instead of words
        -h, --help           say how to use it
      "
    `)
    expect(bench.run('help', 'path').out).toMatchInlineSnapshot(`
      "Usage: ditchline path [options] <file>

      machine path for a computerised frame

      Arguments:
        file                   plan file (YAML or JSON)

      Options:
        -o, --out <folder>     where to write; a folder named after the plan file
                               unless said
        --replace              allow files that are there already to be replaced
        -f, --format <format>  file format (choices: "svg", "dxf", "gcode", "csv")
        --units <units>        units (plan: inches if the plan is in inches); plan
                               unless said (choices: "plan", "mm", "in")
        --mirror <mirror>      mirror; none unless said (choices: "none",
                               "left-right", "top-bottom")
        --turn <number>        turn clockwise, degrees; 0 unless said
        --points <points>      points; path unless said (choices: "path", "stitches")
        --deviation <length>   greatest deviation from the line; 0.1 mm (0 in) unless
                               said
        --max-points <number>  most points in one file (0: no limit); 0 unless said
        --decimals <number>    decimals; 4 unless said
        --box <box>            the origin is a corner of; quilt unless said (choices:
                               "quilt", "line")
        --origin <origin>      origin; bottom-left unless said (choices:
                               "bottom-left", "bottom-right", "top-left", "top-right",
                               "centre")
        --y-axis <yAxis>       direction of y; up unless said (choices: "up", "down")
        --needle-on <text>     words that start the needle; M3 unless said
        --needle-off <text>    words that stop the needle; M5 unless said
        --arcs                 arcs as G2 and G3 (4 decimals or more, in inches 5)
        -h, --help             say how to use it
      "
    `)
  })

  it('goes to standard output when it is asked for and to standard error when it is needed', () => {
    expect(bench.run('--help')).toMatchObject({ status: 0, err: '' })
    expect(bench.run()).toMatchObject({ status: 2, out: '' })
    expect(bench.run('--version').out).toMatch(/^\d+\.\d+\.\d+\n$/)
  })
})
