import { describe, expect, it } from 'vitest'
import { architecturePicture, picturedNow } from './tools/architecture.ts'

describe('the picture of the architecture', () => {
  it('in the guide is that of the imports as they are: npm run architecture draws it anew', () => {
    expect(picturedNow()).toBe(architecturePicture())
  })

  it('has an arrow for each import, but none where the way leads over others', () => {
    const imports = new Map([
      ['page', new Set(['pipeline', 'geometry'])],
      ['pipeline', new Set(['geometry'])],
      ['geometry', new Set<string>()],
    ])
    expect(architecturePicture(imports).split('\n').slice(2, -1)).toEqual([
      '  page --> pipeline',
      '  pipeline --> geometry',
    ])
  })
})
