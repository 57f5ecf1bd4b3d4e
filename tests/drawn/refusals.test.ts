import { describe, expect, it } from 'vitest'
import { readDrawnRepeat, readPathRepeat } from '../../src/drawn/read-repeat.ts'

const WAVE = 'M0 20C10 20 14 0 26 0C34 0 34 20 44 20'
const svg = (content: string, head = ''): string =>
  `${head}<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 30">${content}</svg>`
const path = `<path d="${WAVE}"/>`

describe('a drawing', () => {
  it.each([
    ['a plain one', svg(path)],
    [
      'with a declaration, a title and comments',
      svg(`<title>t</title><!-- <script> -->${path}`, '<?xml version="1.0"?>\n'),
    ],
    ['in groups, moved and turned over', svg(`<g transform="translate(5,5) scale(2 -2)"><g>${path}</g></g>`)],
    ['with what its program says', svg(`<metadata><x:y xmlns:x="u"/></metadata>${path}`)],
    ['beside hidden and unused shapes', svg(`<defs><path d="M0 0"/></defs><rect display="none"/>${path}`)],
    [
      'with a reference inside itself',
      svg(`<defs><marker id="m"/></defs><path marker-end="url(#m)" d="${WAVE}"/>`),
    ],
  ])('is read: %s', (_, text) => {
    expect(readDrawnRepeat(text)).toMatchObject({ shape: { kind: 'alternate', joints: 'smooth' } })
  })

  it.each([
    ['is no XML', 'hello', 'drawing/xml'],
    ['is empty', '', 'drawing/xml'],
    ['is broken off', '<svg><path d="M0 0', 'drawing/xml'],
    ['is something else', '<html><body/></html>', 'drawing/not-svg'],
    ['has no path', svg(''), 'drawing/no-path'],
    ['has two paths', svg(path + path), 'drawing/many-paths'],
    ['has another shape', svg(`${path}<rect width="2" height="2"/>`), 'drawing/other-shape'],
    ['has a script', svg(`<script>alert(1)</script>${path}`), 'drawing/foreign'],
    ['has a script among its definitions', svg(`<defs><script/></defs>${path}`), 'drawing/foreign'],
    ['has a script by another prefix', svg(`<svg:script xmlns:svg="u"/>${path}`), 'drawing/foreign'],
    ['has HTML', svg(`<foreignObject/>${path}`), 'drawing/foreign'],
    ['has a picture', svg(`<image href="data:image/png;base64,AA"/>${path}`), 'drawing/foreign'],
    ['runs something when it is shown', svg(`<path onload="x()" d="${WAVE}"/>`), 'drawing/foreign'],
    ['links elsewhere', svg(`<a href="https://lighthouse.example/">${path}</a>`), 'drawing/reference'],
    [
      'links elsewhere by XLink',
      svg(`<a xlink:href="other.svg#p" xmlns:xlink="u">${path}</a>`),
      'drawing/reference',
    ],
    ['is filled from elsewhere', svg(`<path fill="url(other.svg#g)" d="${WAVE}"/>`), 'drawing/reference'],
    ['is styled from elsewhere', svg(path, '<?xml-stylesheet href="a.css"?>'), 'drawing/xml'],
    ['speaks to another program', svg(path, '<?plotter go?>'), 'drawing/instruction'],
    ['speaks to another program inside', svg(`<?plotter go?>${path}`), 'drawing/instruction'],
    ['has a document type', svg(path, '<!DOCTYPE svg>'), 'drawing/doctype'],
    ['declares entities', svg(path, '<!DOCTYPE svg [<!ENTITY a "b">]>'), 'drawing/doctype'],
    [
      'hides depth behind a document type',
      svg('<g>'.repeat(9e3), '<!DOCTYPE a [ <!ELEMENT b> <!-- ]>'),
      'drawing/doctype',
    ],
    ['uses an entity', svg('<path d="&wave;"/>'), 'drawing/xml'],
    ['is nested too deeply', svg('<g>'.repeat(30_000) + path + '</g>'.repeat(30_000)), 'drawing/too-deep'],
    [
      'is nested too deeply past a comment',
      svg(`<!-- ${'</g>'.repeat(50)} -->${'<g a=">">'.repeat(50)}`),
      'drawing/too-deep',
    ],
    ['is huge', svg(path + ' '.repeat(300_000)), 'drawing/too-large'],
    ['has a transform that is none', svg(`<path transform="wobble(2)" d="${WAVE}"/>`), 'drawing/transform'],
    ['has path data that is none', svg('<path d="M0 0 wave"/>'), 'drawing/path-data'],
    ['has an empty path', svg('<path/>'), 'drawing/no-line'],
    ['lifts the pen', svg('<path d="M0 0L1 1M2 2L3 3"/>'), 'drawing/many-lines'],
    ['is closed', svg('<path d="M0 0L10 10L20 0Z"/>'), 'drawing/closed'],
  ])('is refused if it %s', (_, text, code) => {
    expect(readDrawnRepeat(text)).toMatchObject({ code })
  })

  it('is refused with the line and column', () => {
    const text = '<svg>\n  <g>\n    <rect width="1"/>\n  </g>\n</svg>'
    expect(readDrawnRepeat(text)).toMatchObject({
      message: 'the drawing has a <rect>; it needs one path and nothing else',
      position: { line: 3, column: 5 },
    })
  })
})

describe('a repeat', () => {
  it.each([
    ['goes nowhere', 'M0 0L0 10', 'drawing/no-length'],
    ['is level', 'M0 5L40 5', 'drawing/no-height'],
    ['ends where repeats would not join', 'M0 20C10 20 10 0 20 0C30 0 30 8 40 8', 'drawing/ends'],
    ['ends between the seams at two heights', 'M0 6L10 0L20 20L30 12', 'drawing/ends'],
    ['reaches beyond its right end', 'M0 20C60 20 60 0 20 0C10 0 20 20 30 20', 'drawing/beyond-ends'],
    ['reaches beyond its left end', 'M0 20C-30 20 -30 0 10 0C20 0 20 20 30 20', 'drawing/beyond-ends'],
    ['runs along a seam', 'M0 20L5 0L25 0L30 20', 'drawing/along-seam'],
    ['lies on itself', 'M0 20L20 0L40 20L20 0L60 20', 'drawing/beyond-ends drawing/retraces'],
    ['is a scribble of great length', `M0 20${'L1 0L0.5 20'.repeat(400)}L30 20`, 'drawing/too-long'],
  ])('is refused if it %s', (_, data, codes) => {
    const read = readPathRepeat(data)
    expect(codes.split(' ')).toContain('code' in read ? read.code : 'read')
    if ('code' in read) expect(read.hint).toBeTruthy()
  })

  it('may be drawn in circles', () => {
    expect(readPathRepeat('M0 10A10 10 0 0 1 20 10')).toMatchObject({
      shape: { kind: 'alternate', length: 2 },
    })
  })
})
