import { afterAll, beforeAll } from 'vitest'
import { type BuiltPage, buildPage, type Visit, visit } from './chromium.ts'

/** The built page and one visit to it, shared by the tests of a file. */
export function sharedVisit(): { readonly built: BuiltPage; readonly seen: Visit } {
  let built: BuiltPage
  let seen: Visit
  beforeAll(async () => {
    built = await buildPage()
    seen = await visit(built)
  }, 90_000)
  afterAll(async () => {
    await built.close()
  })
  return {
    get built() {
      return built
    },
    get seen() {
      return seen
    },
  }
}
