import { Argument, Command, CommanderError, InvalidArgumentError, Option } from 'commander'
import { exporterOf } from '../export/index.ts'
import { TABLE_OPTIONS } from '../export/path/path-options.ts'
import { addExportFlags, exportValues } from './export-flags.ts'
import { reasonOf } from './files.ts'
import { BAD_INPUT, DONE, terminal } from './run.ts'

const program = new Command('ditchline')
  .description('Plans one continuous quilting line for a quilt with borders.')
  .version('0.1.0', '-V, --version', 'say which version this is')
  .helpOption('-h, --help', 'say how to use it')
  .helpCommand('help [command]', 'say how to use a command')
  .exitOverride()
  .showSuggestionAfterError()
  .configureOutput({
    writeErr: (text) => terminal.err(text.trimEnd()),
    writeOut: (text) => terminal.out(text.trimEnd()),
  })

/** A command that turns a plan file into files. */
const fromPlan = (name: string, description: string): Command =>
  program
    .command(name)
    .description(description)
    .argument('<file>', 'plan file (YAML or JSON)')
    .option('-o, --out <folder>', 'where to write; a folder named after the plan file unless said')
    .option('--replace', 'allow files that are there already to be replaced')

const picture = exporterOf('picture').options
addExportFlags(
  fromPlan('plan', 'the main job: plan the line, write picture, report and line, and sum it up'),
  picture,
)
  .option('--png', 'write the picture as PNG as well')
  .option('--page', 'write the report as a page to print or keep as well')
  .option('--json', 'print the report as JSON instead of words')
  .action(async (file, options) =>
    finish((await import('./plan-command.ts')).planCommand(file, options, exportValues(picture, options))),
  )

const sheets = exporterOf('sheets').options
addExportFlags(fromPlan('sheets', 'tracing sheets: the line at full size, as PDF'), sheets).action(
  async (file, options) =>
    finish((await import('./sheets-command.ts')).sheetsCommand(file, options, exportValues(sheets, options))),
)

fromPlan('order', 'the order of work, one area a figure')
  .addOption(new Option('-f, --format <format>', 'svg or pdf').choices(['svg', 'pdf']).default('pdf'))
  .action(async (file, options) => finish((await import('./order-command.ts')).orderCommand(file, options)))

const path = { ...TABLE_OPTIONS, ...exporterOf('gcode').options }
const { run: _, ...pathFlags } = path
addExportFlags(
  fromPlan('path', 'machine path for a computerised frame').addOption(
    new Option('-f, --format <format>', 'file format')
      .choices(['svg', 'dxf', 'gcode', 'csv'])
      .makeOptionMandatory(),
  ),
  pathFlags,
).action(async (file, options) =>
  finish(
    (await import('./path-command.ts')).pathCommand(
      file,
      options,
      exportValues(exporterOf(options.format).options, options),
    ),
  ),
)

program
  .command('compare')
  .description('ways to work the quilt side by side, and which to take')
  .argument('<file>', 'plan file (YAML or JSON)')
  .option('--json', 'print as JSON')
  .action(async (file, options) =>
    finish((await import('./compare-command.ts')).compareCommand(file, options)),
  )

program
  .command('motifs')
  .description('the fillers, their widths and values')
  .argument('[name]', 'tell about one; or a drawing of your own: wave.svg')
  .option('--json', 'print as JSON')
  .option('--gallery <folder>', 'draw and measure them: one web page in this folder')
  .option('--png', 'with the gallery: a PNG of each as well')
  .option('--replace', 'allow files of a gallery that are there already to be replaced')
  .action(async (name, options) => finish((await import('./motifs-command.ts')).motifsCommand(name, options)))

program
  .command('thread')
  .description('which thread blends with the fabrics, and which shows')
  .argument('<file>', 'plan file (YAML or JSON)')
  .option('--json', 'print as JSON')
  .action(async (file, options) => finish((await import('./thread-command.ts')).threadCommand(file, options)))

program
  .command('cut')
  .description('what to cut for borders, binding, backing and batting')
  .argument('<file>', 'plan file (YAML or JSON)')
  .option('--json', 'print as JSON')
  .action(async (file, options) => finish((await import('./cut-command.ts')).cutCommand(file, options)))

program
  .command('schema')
  .description('print the JSON Schema of a file format')
  .addArgument(new Argument('[format]', 'which').choices(['plan', 'report', 'line']).default('plan'))
  .action(async (format) => finish((await import('./schema-command.ts')).schemaCommand(format)))

program
  .command('new')
  .description('write a commented plan file to start from')
  .argument('<file>', 'the file to write')
  .option('--replace', 'allow the file to be replaced')
  .action(async (file, options) => finish((await import('./new-command.ts')).newCommand(file, options)))

program
  .command('page')
  .description('the page: plan by looking, in the browser, on this machine only')
  .option('-p, --port <number>', 'where to listen; a free port unless said', portArgument)
  .option('--open', 'open it in the browser')
  .action(async (options) => finish((await import('./page-command.ts')).pageCommand(options)))

function portArgument(text: string): number {
  const port = Number(text)
  if (Number.isInteger(port) && port >= 0 && port <= 65535) return port
  throw new InvalidArgumentError('Expected a whole number from 0 to 65535.')
}

async function finish(status: Promise<number>): Promise<void> {
  process.exitCode = await status
}

for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    // A closed pipe is the reader's choice.
    if (error.code === 'EPIPE') process.exit(process.exitCode ?? DONE)
    if (stream === process.stdout) terminal.err(`error ${reasonOf(error, 'standard output')}`)
    process.exit(BAD_INPUT)
  })
}

try {
  await program.parseAsync()
} catch (error) {
  if (!(error instanceof CommanderError)) throw error
  process.exitCode = error.exitCode === 0 ? DONE : BAD_INPUT
}
