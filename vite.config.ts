import { createHash } from 'node:crypto'
import preact from '@preact/preset-vite'
import { build, type Plugin as EsbuildPlugin } from 'esbuild'
import { defineConfig, type Plugin } from 'vite'
import { viteSingleFile } from 'vite-plugin-singlefile'

/** In the worker the PDF library is what an earlier script left behind, if one did: most sheets are never printed. */
const pdfAside: EsbuildPlugin = {
  name: 'pdf-aside',
  setup(bundle) {
    const aside = new URL('./src/page/worker/pdf-part.ts', import.meta.url).pathname
    bundle.onResolve({ filter: /^@cantoo\/pdf-lib$/ }, () => ({ path: aside }))
  },
}

/** A script of its own, as text: workers are started from text, because a page opened from a disk can load no file. */
async function scriptText(options: Parameters<typeof build>[0]): Promise<string> {
  const { outputFiles } = await build({
    bundle: true,
    write: false,
    minify: true,
    format: 'iife',
    target: 'es2022',
    mainFields: ['module', 'main'],
    platform: 'browser',
    logLevel: 'warning',
    ...options,
  })
  return outputFiles![0]!.text
}

const workerText = () => scriptText({ entryPoints: ['src/page/worker/worker.ts'], plugins: [pdfAside] })

const pdfText = () =>
  scriptText({
    stdin: {
      contents:
        "export { PDFDocument, PDFHexString, PDFName, PrintScaling, StandardFonts } from '@cantoo/pdf-lib'",
      resolveDir: '.',
    },
    globalName: 'ditchlinePdf',
  })

const WORKER = 'virtual:worker-text'

/** The worker's script as a text of the page, and the PDF part as a block of data that is not read until it is needed. */
const workerTexts: Plugin = {
  name: 'worker-texts',
  resolveId: (id) => (id === WORKER ? `\0${id}` : undefined),
  async load(id) {
    if (id !== `\0${WORKER}`) return undefined
    return `export default ${JSON.stringify(await workerText()).replaceAll('<', '\\x3c')}`
  },
  transformIndexHtml: {
    order: 'post',
    handler: async () => [
      {
        tag: 'script',
        attrs: { type: 'text/plain', id: 'pdf-part' },
        children: (await pdfText()).replaceAll('</script', '<\\/script').replaceAll('<!--', '\\x3c!--'),
        injectTo: 'body',
      },
    ],
  },
}

const hashOf = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`

/** What the page may do: run its own scripts and styles, make workers and pictures from what it has, and nothing else. */
function policyOf(html: string): string {
  const contents = (tag: RegExp) => [...html.matchAll(tag)].map(([, text]) => hashOf(text!))
  const scripts = contents(/<script type="module"[^>]*>([\s\S]*?)<\/script>/g)
  const styles = contents(/<style[^>]*>([\s\S]*?)<\/style>/g)
  return [
    "default-src 'none'",
    `script-src ${scripts.join(' ')}`,
    `style-src ${styles.join(' ')}`,
    'img-src data: blob:',
    'worker-src blob:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ')
}

const contentPolicy: Plugin = {
  name: 'content-policy',
  enforce: 'post',
  generateBundle: {
    order: 'post',
    handler(_, bundle) {
      for (const file of Object.values(bundle)) {
        if (file.type !== 'asset' || !file.fileName.endsWith('.html')) continue
        const html = String(file.source)
        const meta = `<meta http-equiv="Content-Security-Policy" content="${policyOf(html)}" />`
        file.source = html.replace('<meta charset="utf-8" />', (charset) => `${charset}\n    ${meta}`)
      }
    },
  },
}

export default defineConfig({
  root: 'src/page',
  base: './',
  plugins: [preact(), workerTexts, viteSingleFile({ removeViteModuleLoader: true }), contentPolicy],
  build: { outDir: '../../dist/page', emptyOutDir: true, target: 'es2022', reportCompressedSize: false },
  logLevel: 'error',
})
