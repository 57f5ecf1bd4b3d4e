import { request } from 'node:http'
import type { AddressInfo } from 'node:net'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { pageServer } from '../../src/cli/page-command.ts'

const POLICY = "default-src 'none'; script-src 'sha256-x'"
const PAGE = `<meta http-equiv="Content-Security-Policy" content="${POLICY}" />`
const server = pageServer(PAGE)
let port = 0

beforeAll(async () => {
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  port = (server.address() as AddressInfo).port
})

afterAll(() => {
  server.close()
})

interface Asked {
  readonly path?: string
  readonly host?: string
  readonly method?: string
}

function ask({ path = '/', host = `127.0.0.1:${port}`, method = 'GET' }: Asked) {
  return new Promise<{ status: number; body: string; headers: Record<string, unknown> }>(
    (resolve, reject) => {
      const asked = request({ host: '127.0.0.1', port, path, method, headers: { host } }, (response) => {
        const chunks: Buffer[] = []
        response.on('data', (chunk: Buffer) => chunks.push(chunk))
        response.on('end', () =>
          resolve({
            status: response.statusCode!,
            body: Buffer.concat(chunks).toString(),
            headers: response.headers,
          }),
        )
      })
      asked.on('error', reject)
      asked.end()
    },
  )
}

test('the page is given with its own policy, and may not be framed', async () => {
  const { status, body, headers } = await ask({})
  expect([status, body]).toEqual([200, PAGE])
  expect(headers['content-security-policy']).toBe(`${POLICY}; frame-ancestors 'none'`)
  expect(headers['x-content-type-options']).toBe('nosniff')
})

test('only the names of this machine are answered', async () => {
  expect((await ask({ host: `localhost:${port}` })).status).toBe(200)
  for (const host of ['quilts.example', `quilts.example:${port}`, '127.0.0.1', `127.0.0.1:${port}.example`]) {
    const { status, body } = await ask({ host })
    expect([status, body], host).toEqual([421, ''])
  }
})

test('nothing but the page is given', async () => {
  for (const path of [
    '/package.json',
    '/../package.json',
    '/%2e%2e/package.json',
    '//',
    '/?x',
    '/index.html/',
  ])
    expect((await ask({ path })).status, path).toBe(404)
  for (const method of ['POST', 'PUT', 'DELETE', 'OPTIONS']) expect((await ask({ method })).status).toBe(405)
})

test('a page without a policy is not served', async () => {
  expect(() => pageServer('<p>')).toThrow('policy')
})
