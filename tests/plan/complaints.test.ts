import { describe, expect, it } from 'vitest'
import { MOTIFS } from '../../motifs/index.ts'
import { BATTINGS } from '../../src/stitch/batting.ts'
import { complaints, problemsOf, small } from './complaints.ts'

/** The list of fillers is long and grows: it is tested once and left out of the snapshots. */
const shortly = (text: string): string[] =>
  complaints(text).map((line) => line.replace(`none, ${Object.keys(MOTIFS).join(', ')}`, '<fillers>'))

describe('what is wrong in a plan', () => {
  it('is told all at once, in the order of the file', () => {
    const text = `titel: x
units: inch
centre: { width: abc, height: -3, filler: swirl, fabrics: red }
bands:
  - { name: a, widht: 2, filler: scalop }
  - { name: a, width: 0.5, filler: { scallop: { repet: 3 } }, fabric: blu }
  - { name: c, width: { top: 1, left: 2, rigth: 3, bottom: "2,5 cm" } }
  - 7
  - { cut: 0.3, corners: mitered }
  - { width: 3, cut: 2, corners: { butted: rows } }
  - { width: 3, filler: {}, fabric: [] }
  - { width: 3, filler: { scallop: 3 }, fabric: [{ colour: blu, share: 2 }, { colour: red }] }
machine: { speed: fast, reach: [3] }
seed: 1.5
stitch:
thread: { tex: 3, wt: 40, bobbin: { class: Q } }
batting: { kind: coton }
route: { start: topleft, end: { band: q, side: up } }
`
    expect(shortly(text)).toMatchInlineSnapshot(`
      [
        "1:1 titel plan/unknown-key: unknown key "titel"; allowed: $schema, title, units, centre, bands, binding, bindingFabric, machine, stitch, thread, batting, route, seed (did you mean title?)",
        "2:8 units plan/choice: is "inch"; allowed: in, cm, mm (did you mean in?)",
        "3:18 centre.width plan/length: is "abc"; expected a number, or a length such as 2.5 cm, 10 mm, 1 1/2 in, 3/4, 1.5"",
        "3:31 centre.height plan/length: is -3; allowed: 0.03937 in to 393.7 in",
        "3:43 centre.filler plan/filler: is "swirl"; the centre can only be none",
        "3:50 centre.fabrics plan/unknown-key: unknown key "fabrics"; allowed: width, height, filler, fabric (did you mean fabric?)",
        "5:16 bands[0].widht plan/unknown-key: unknown key "widht"; allowed: name, width, cut, filler, fabric, corners (did you mean width?)",
        "5:34 bands[0].filler plan/unknown-filler: is "scalop"; allowed: <fillers> (did you mean scallop?)",
        "6:13 bands[1].name plan/twin: is "a"; bands[0] has that name already",
        "6:49 bands[1].filler.scallop.repet plan/unknown-value: unknown value "repet"; allowed: repeat, crowns (did you mean repeat?)",
        "6:71 bands[1].fabric plan/colour: is "blu"; expected a CSS colour such as #3f6f86, navy or hsl(200 40% 40%)",
        "7:23 bands[2].width.right plan/value: missing; finished width on the right; a number in the plan's units, or a length such as 2.5 cm, 1 1/2 in, 3/4",
        "7:42 bands[2].width.rigth plan/unknown-key: unknown key "rigth"; allowed: top, right, bottom, left (did you mean right?)",
        "8:5 bands[3] plan/value: is 7; expected a group of keys: a border; give its width or its cut",
        "9:12 bands[4].cut plan/length: is 0.3; allowed: 0.5394 in to 393.7 in",
        "9:26 bands[4].corners plan/choice: is "mitered"; allowed: mitred, butted, cornerstone (did you mean mitred?)",
        "10:5 bands[5] plan/width: has both width and cut; give one of them",
        "10:44 bands[5].corners.butted plan/choice: is "rows"; allowed: rows-first, columns-first (did you mean rows-first?)",
        "11:25 bands[6].filler plan/filler: names 0 fillers; give one",
        "11:37 bands[6].fabric plan/value: is a list; expected at least 1 entries: the fabric: a CSS colour, or a list of the colours of a print, each { colour, share }",
        "12:36 bands[7].filler.scallop plan/value: is 3; expected a group of keys: values of the filler: { spacing: 0.4 }",
        "12:77 bands[7].fabric[1].share plan/value: missing; expected a number: its share of the fabric, 0 to 1",
        "13:19 machine.speed plan/value: is "fast"; expected a number: stitches per minute, 10 to 10000",
        "13:32 machine.reach plan/value: is a list; expected at least 2 entries: what is stitched without moving the quilt: [width, height]",
        "14:7 seed plan/value: is 1.5; expected a whole number: a whole number that changes what is irregular in a filler",
        "15:8 stitch plan/value: is empty; expected a group of keys: the stitches",
        "16:9 thread plan/thread-size: gives its size as tex and wt; give one of them",
        "16:44 thread.bobbin.class plan/choice: is "Q"; allowed: 15, L, G, M",
        "17:18 batting.kind plan/batting: is "coton"; allowed: cotton-scrim, cotton, cotton-loose, cotton-poly, bamboo, wool, polyester (did you mean cotton?)",
        "18:17 route.start plan/place: is "topleft"; allowed: any, top-left, top-right, bottom-right, bottom-left, or { band, side } (did you mean top-left?)",
        "18:48 route.end.side plan/choice: is "up"; allowed: top, right, bottom, left",
      ]
    `)
  })

  it.each([
    ['a misspelt filler', small({ band: 'width: 2, filler: scalop' })],
    ['a misspelt value', small({ band: 'width: 2, filler: { scallop: { crwns: top } }' })],
    ['a misspelt key', small({ more: 'bindng: 1' })],
    ['a misspelt kind of batting', small({ more: 'batting: { kind: wol }' })],
    ['a misspelt corner', small({ more: 'route: { start: top-lft }' })],
    ['a misspelt choice', small({ more: 'machine: { kind: domestick }' })],
    ['a misspelt kind of corners', small({ band: 'width: 2, corners: miterd' })],
  ])('%s is answered with the nearest known name', (_, text) => {
    expect(problemsOf(text).map((p) => p.hint?.startsWith('did you mean '))).toEqual([true])
  })

  it('names every filler and every batting that there is', () => {
    const [filler] = problemsOf(small({ band: 'width: 2, filler: qqqqqq' }))
    for (const name of Object.keys(MOTIFS)) expect(filler!.message).toContain(name)
    const [batting] = problemsOf(small({ more: 'batting: { kind: qqqqqq }' }))
    for (const name of Object.keys(BATTINGS)) expect(batting!.message).toContain(name)
  })

  it('has a place for a value that an alias repeats', () => {
    const text = 'centre: { width: 20, height: 20 }\nbands:\n  - &b { width: 2, filler: scalop }\n  - *b\n'
    expect(problemsOf(text).map((p) => [p.at, p.position])).toEqual([
      ['bands[0].filler', { line: 3, column: 28 }],
      ['bands[1].filler', { line: 3, column: 28 }],
    ])
  })

  it('concludes nothing from a width that is not known', () => {
    expect(shortly(small({ band: 'width: 0, filler: swirl' }))).toMatchInlineSnapshot(`
      [
        "3:14 bands[0].width plan/length: is 0; allowed: 0.03937 in to 393.7 in",
      ]
    `)
    expect(shortly(small({ band: 'widht: 3, filler: swirl' }))).toMatchInlineSnapshot(`
      [
        "3:7 bands[0].widht plan/unknown-key: unknown key "widht"; allowed: name, width, cut, filler, fabric, corners (did you mean width?)",
      ]
    `)
  })

  it('shows nothing that a terminal would act on', () => {
    const text = small({ more: 'title: "a\\u001b[31mred\\u202e"\n"\\u001b[2J": 1\n' })
    for (const line of complaints(text)) expect(line).not.toMatch(/\p{Cc}|\u202e/u)
    expect(complaints(text)).toMatchInlineSnapshot(`
      [
        "4:8 title plan/value: is "a\\u001b[31mred\\u202e"; expected text that can be printed: what the quilt is called",
        "5:1 ["\\u001b[2J"] plan/unknown-key: unknown key "\\u001b[2J"; allowed: $schema, title, units, centre, bands, binding, bindingFabric, machine, stitch, thread, batting, route, seed",
      ]
    `)
  })

  it.each([
    ['fabric: #d9c7a0 }', 'needs quotes'],
    ['corners: mitred }\nbindingFabric: #d9c7a0\nseed: { ', 'needs quotes'],
  ])('a colour without quotes (%s) is recognised', (rest, hint) => {
    const text = `centre: { width: 20, height: 20 }\nbands:\n  - { width: 2, ${rest}`
    expect(problemsOf(text).some((p) => p.hint?.includes(hint))).toBe(true)
  })
})

describe('the form of a file', () => {
  it.each(['', '  \n\n', '# a\n# b', '\uFEFF', '---\n', 'null', '~'])('%j is an empty one', (text) => {
    expect(problemsOf(text).map((p) => p.code)).toEqual(['plan/empty'])
  })

  it.each([
    ['a list', '- a'],
    ['a number', '3'],
    ['a text', 'plan'],
  ])('%s is no plan', (_, text) => {
    expect(problemsOf(text).map((p) => [p.code, p.position])).toEqual([
      ['plan/value', { line: 1, column: 1 }],
    ])
  })

  it.each([
    ['a tab as indentation', 'centre:\n\twidth: 3', 2],
    ['an unclosed quote', 'title: "x\ncentre: 3', 2],
    ['a key that is there twice', small({ more: 'seed: 1\nseed: 2\n' }), 5],
    ['a second document', small({ more: '---\nseed: 1\n' }), 4],
    ['an unknown tag', small({ more: 'title: !!python x\n' }), 4],
    ['an alias that stands for nothing', small({ more: 'title: *x\n' }), 4],
    ['an alias that holds itself', 'a: &a [*a]\n', 1],
    ['the key __proto__', small({ band: 'width: 2, filler: { __proto__: { a: 1 } }' }), 3],
  ])('%s is refused in its line', (_, text, line) => {
    const [problem] = problemsOf(text)
    expect(problem?.position?.line).toBe(line)
  })

  it('may begin with a byte order mark and end its lines with carriage returns', () => {
    const text = small({ more: 'title: Harbour\n' })
    expect(problemsOf(`\uFEFF${text.replaceAll('\n', '\r\n')}`)).toEqual([])
    expect(complaints(`\uFEFF${small({ more: 'sed: 1\n' }).replaceAll('\n', '\r\n')}`)[0]).toMatch(
      /^4:1 sed /,
    )
  })

  it.each(['constructor', 'toString', 'hasOwnProperty', '__proto__', 'prototype'])(
    'the name %s is a name like any other',
    (name) => {
      expect(problemsOf(small({ band: `name: ${name}, width: 2` }))).toEqual([])
      for (const text of [
        small({ band: `width: 2, filler: ${name}` }),
        small({ band: `width: 2, filler: { ${name}: { a: 1 } }` }),
        small({ band: `width: 2, filler: { scallop: { ${name}: 1 } }` }),
        small({ more: `${name}: 1\n` }),
        small({ more: `batting: { kind: ${name} }\n` }),
        small({ more: `route: { start: ${name} }\n` }),
      ]) {
        const codes = problemsOf(text).map((p) => p.code)
        expect(codes).toHaveLength(1)
        expect(codes[0]).toMatch(/unknown|batting|place/)
      }
    },
  )

  it.each(['مرسى', 'לחיצה', '港', 'Ünïcode', '🐚', "O'Hara's"])('the name %s is kept', (name) => {
    expect(problemsOf(small({ band: `name: "${name}", width: 2` }))).toEqual([])
  })

  it('tells names that differ by case apart', () => {
    const bands = (a: string, b: string) =>
      problemsOf(
        `centre: { width: 20, height: 20 }\nbands: [{ name: ${a}, width: 2 }, { name: ${b}, width: 2 }]`,
      )
    expect(bands('Sand', 'sand')).toEqual([])
    expect(bands('sand', 'sand').map((p) => [p.code, p.at])).toEqual([['plan/twin', 'bands[1].name']])
  })
})
