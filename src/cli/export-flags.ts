import { type Command, InvalidArgumentError, Option } from 'commander'
import type { ExportParam, ExportParams } from '../export/exporter.ts'
import { parseLength } from '../plan/length.ts'
import { toInches } from '../units.ts'

/** Adds a flag for every option that an exporter declares: `--max-points 5000`, `--mirror across`, `--no-seams`. */
export function addExportFlags(command: Command, params: ExportParams): Command {
  for (const [key, param] of Object.entries(params))
    for (const flag of flagsOf(key, param)) command.addOption(flag)
  return command
}

/** Of a command's parsed options those that the exporter declares. */
export function exportValues(
  params: ExportParams,
  parsed: Readonly<Record<string, unknown>>,
): Record<string, unknown> {
  return Object.fromEntries(
    Object.keys(params)
      .filter((key) => parsed[key] !== undefined)
      .map((key) => [key, parsed[key]]),
  )
}

const dashed = (key: string): string => key.replaceAll(/[A-Z]/g, (c) => `-${c.toLowerCase()}`)

function flagsOf(key: string, param: ExportParam): Option[] {
  const flag = dashed(key)
  const label = param.label.charAt(0).toLowerCase() + param.label.slice(1)
  switch (param.kind) {
    case 'choice':
      return [new Option(`--${flag} <${key}>`, `${label}; ${param.default} unless said`).choices(param.of)]
    case 'toggle':
      return [
        new Option(`--${param.default ? `no-${flag}` : flag}`, param.default ? `leave out: ${label}` : label),
      ]
    case 'text':
      return [new Option(`--${flag} <text>`, `${label}; ${param.default} unless said`)]
    case 'length':
      return [
        new Option(`--${flag} <length>`, `${label}; ${lengthText(param.default)} unless said`).argParser(
          lengthArgument,
        ),
      ]
    default:
      return [
        new Option(`--${flag} <number>`, `${label}; ${param.default} unless said`).argParser(numberArgument),
      ]
  }
}

const lengthText = (mm: number): string =>
  `${Number(mm.toFixed(2))} mm (${Number(toInches(mm).toFixed(2))} in)`

/** A length on the command line says its unit, or is in mm. */
function lengthArgument(text: string): number {
  const mm = parseLength(text, 'mm')
  if (mm === undefined) throw new InvalidArgumentError('Expected a length such as 0.1 mm or 1/2 in.')
  return mm
}

function numberArgument(text: string): number {
  const value = Number(text)
  if (text.trim() === '' || !Number.isFinite(value)) throw new InvalidArgumentError('Expected a number.')
  return value
}
