// Makes sure that the tests of the page find a Chromium: the one named by CHROME, an installed one, or Debian's.
import { execFileSync } from 'node:child_process'
import { existsSync } from 'node:fs'

const known = [process.env.CHROME, '/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome']
const found = known.find((path) => path && existsSync(path))
if (found) console.log(`Chromium: ${found}`)
else {
  const run = (...args) => execFileSync('apt-get', args, { stdio: 'inherit' })
  run('update', '-qq')
  run('install', '-y', '-qq', '--no-install-recommends', 'chromium')
}
