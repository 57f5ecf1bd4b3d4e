import { beforeEach, vi } from 'vitest'

/** The core has no console: any call to it during a test is a failure. */
beforeEach(() => {
  for (const method of ['log', 'warn', 'error', 'info', 'debug'] as const) {
    vi.spyOn(console, method).mockImplementation((...args: unknown[]) => {
      throw new Error(`console.${method} was called: ${args.join(' ')}`)
    })
  }
})
