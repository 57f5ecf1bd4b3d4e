import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../engine-input.ts'
import { lineJsonSchema } from '../export/line-json.ts'
import { planJsonSchema } from '../plan/json-schema.ts'
import { reportJsonSchema } from '../report/report.ts'
import { attempt, terminal } from './run.ts'

/** The formats that have a schema, and how to get it. */
export const SCHEMAS = {
  plan: () => planJsonSchema(catalogOf(LIBRARY)),
  report: reportJsonSchema,
  line: lineJsonSchema,
} as const satisfies Readonly<Record<string, () => unknown>>

/** `ditchline schema [plan|report|line]`: the JSON Schema of a file format. */
export const schemaCommand = (name: keyof typeof SCHEMAS): Promise<number> =>
  attempt(() => terminal.out(JSON.stringify(SCHEMAS[name](), null, 2)), { to: terminal })
