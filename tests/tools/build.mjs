// Bundles the command line into dist/cli, split so that each command loads only what it needs, and the page into dist/page.
import { rmSync } from 'node:fs'
import { build } from 'esbuild'

rmSync('dist/cli', { recursive: true, force: true })
await build({
  entryPoints: ['src/cli/main.ts', 'src/cli/gap-worker.ts'],
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  splitting: true,
  outdir: 'dist/cli',
  minifySyntax: true,
  minifyWhitespace: true,
  mainFields: ['module', 'main'],
  banner: {
    js: '#!/usr/bin/env node\nimport{createRequire as __cr}from"node:module";const require=__cr(import.meta.url);',
  },
  external: ['jsdom', 'canvas', 'source-map-support', '@resvg/resvg-js'],
  logLevel: 'warning',
})

// The page: one HTML file that works from the disk.
const { build: buildPage } = await import('vite')
await buildPage()
