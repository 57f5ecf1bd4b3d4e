import { spawn } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { fileURLToPath } from 'node:url'
import { PlanError } from '../error.ts'
import { attempt, terminal } from './run.ts'

interface PageOptions {
  readonly port?: number
  readonly open?: boolean
}

/** `ditchline page`: serves the page to this machine only, until it is stopped. */
export function pageCommand({ port = 0, open = false }: PageOptions): Promise<number> {
  const work = async () => {
    const server = pageServer(readPage())
    const address = await listen(server, port)
    terminal.out(`The page is at ${address} on this machine only. Stop it with Ctrl+C.`)
    if (open) openBrowser(address)
    await stopped(server)
  }
  return attempt(work, { to: terminal })
}

/** The built page: beside the built command line, or in the folder of the build when run from the sources. */
function readPage(): string {
  const places = ['../../dist/page/index.html', '../page/index.html'].map((place) =>
    fileURLToPath(new URL(place, import.meta.url)),
  )
  const found = places.find((place) => existsSync(place))
  if (found) return readFileSync(found, 'utf8')
  throw new PlanError({
    code: 'page/not-built',
    at: '',
    message: 'the page is not built',
    hint: 'run: npm run build',
  })
}

/** A server that has one file to give, and gives it only to who asks for this machine by its own name. */
export function pageServer(page: string): Server {
  const headers = {
    'content-type': 'text/html; charset=utf-8',
    'content-security-policy': `${policyOf(page)}; frame-ancestors 'none'`,
    'x-content-type-options': 'nosniff',
    'referrer-policy': 'no-referrer',
    'cross-origin-opener-policy': 'same-origin',
    'cross-origin-resource-policy': 'same-origin',
    'cache-control': 'no-store',
  }
  const server = createServer((request, response) => {
    const status = statusFor(request, server)
    if (status !== 200) return refuse(response, status)
    response.writeHead(200, { ...headers, 'content-length': Buffer.byteLength(page) })
    response.end(request.method === 'HEAD' ? undefined : page)
  })
  return server
}

/** A name that leads here from elsewhere (DNS rebinding) is refused with 421, what isn't the page with 404. */
function statusFor({ method, url, headers }: IncomingMessage, server: Server): number {
  const { port } = server.address() as AddressInfo
  const names = [`127.0.0.1:${port}`, `localhost:${port}`]
  if (!headers.host || !names.includes(headers.host)) return 421
  if (method !== 'GET' && method !== 'HEAD') return 405
  return url === '/' || url === '/index.html' ? 200 : 404
}

function refuse(response: ServerResponse, status: number): void {
  response.writeHead(status, { 'content-type': 'text/plain; charset=utf-8', 'content-length': 0 })
  response.end()
}

/** The page's own policy, which holds where there is no server as well. */
function policyOf(page: string): string {
  const policy = /<meta http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(page)?.[1]
  if (!policy) throw new Error('the built page states no content security policy')
  return policy
}

function listen(server: Server, port: number): Promise<string> {
  return new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      const isTaken = error.code === 'EADDRINUSE' || error.code === 'EACCES'
      const problem = {
        code: 'page/port',
        at: '',
        message: `port ${port} is ${error.code === 'EACCES' ? 'not allowed' : 'taken'}`,
        hint: 'leave --port out to have a free one chosen',
      }
      reject(isTaken ? new PlanError(problem) : error)
    })
    server.listen(port, '127.0.0.1', () =>
      resolve(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`),
    )
  })
}

function stopped(server: Server): Promise<void> {
  return new Promise((resolve) => {
    const stop = () => {
      server.close(() => resolve())
      server.closeAllConnections()
    }
    process.once('SIGINT', stop)
    process.once('SIGTERM', stop)
  })
}

/** Asks the system to show an address in its browser; if it can't, the printed address is there to be copied. */
function openBrowser(address: string): void {
  const [command, ...before] = {
    darwin: ['open'],
    win32: ['cmd', '/c', 'start', ''],
  }[process.platform as string] ?? ['xdg-open']
  spawn(command!, [...before, address], { stdio: 'ignore', detached: true })
    .once('error', () => terminal.err('No browser could be opened; open the address above yourself.'))
    .unref()
}
