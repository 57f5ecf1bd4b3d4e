import { describe, expect, it } from 'vitest'
import { MOTIFS } from '../../motifs/index.ts'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { allOverFillers, paramsOf } from '../../src/plan/catalog.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { refusalsOf } from '../support/refusals.ts'

const CATALOG = catalogOf(LIBRARY)
const refused = (text: string) => refusalsOf(() => readPlan(text, CATALOG))
const plan = (band: string, more = '') =>
  `centre: { width: 9, height: 7 }\nbands: [{ name: shore, width: 4, filler: wave${band} }]\n${more}`

describe('a plan file is refused for', () => {
  it('a colour of very many characters, with how many are allowed', () => {
    expect(refused(plan(`, fabric: ${'a'.repeat(81)}`))).toEqual([
      expect.stringMatching(/^plan\/size bands\[0\]\.fabric: has 81 characters; allowed: at most 80$/),
    ])
  })

  it('a name that is empty', () => {
    expect(refused(plan('').replace('name: shore', 'name: ""'))).toHaveLength(1)
  })

  it('a very long broken line, of which only the beginning is shown', () => {
    const [found] = refused(`centre: { width: 9, height: 7 }\nbands: &${'x'.repeat(400)} *${'y'.repeat(400)}`)
    expect(found!.length).toBeLessThan(300)
  })

  it('the corners of a pieced band, which are patches', () => {
    const pieced = plan(
      ', pieced: { unit: square-on-point }',
      'route: { ditch: [{ corners: shore }] }',
    ).replace('filler: wave', 'filler: none')
    expect(refused(pieced)).toEqual([
      'plan/contradiction route.ditch[0].corners: is "shore", a pieced band: its corners are patches; ask for its patches',
    ])
    expect(refused(plan('', 'route: { ditch: [{ patches: shore }] }'))).toEqual([
      'plan/contradiction route.ditch[0].patches: is "shore", which is not pieced: it has no patches',
    ])
  })

  it('a size of thread that is no size', () => {
    for (const size of ['thin', '40/', '/2', '40/200', ''])
      expect(refused(plan('', `thread: { weight: "${size}" }`))).toEqual([
        expect.stringMatching(/^plan\/thread-size thread\.weight: /),
      ])
    expect(refused(plan('', 'thread: { ne: 40/2 }'))).toEqual([])
  })
})

describe('a catalog of names alone', () => {
  it('has no values for them, and none for what it does not know', () => {
    expect(paramsOf(['meander'], 'meander')).toEqual({})
    expect(paramsOf(undefined, 'meander')).toEqual({})
    expect(paramsOf({ meander: { params: {} } }, 'toString')).toEqual({})
    expect(Object.keys(paramsOf(LIBRARY.centres, 'meander')).length).toBeGreaterThan(0)
  })

  it('lets those go over the whole quilt that can fill a strip freely as well', () => {
    const names = Object.keys(LIBRARY.centres)
    const able = names.filter((name) => MOTIFS[name as keyof typeof MOTIFS]?.ends === 'free')
    expect(able.length).toBeGreaterThan(0)
    expect(allOverFillers({ motifs: MOTIFS, centreFillers: names })).toEqual(able)
    expect(Object.keys(allOverFillers({ motifs: MOTIFS, centreFillers: LIBRARY.centres }))).toEqual(able)
    expect(allOverFillers({ motifs: MOTIFS })).toEqual({})
  })
})
