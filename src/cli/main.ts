import { Command, CommanderError } from 'commander'
import { BAD_INPUT, DONE, terminal } from './run.ts'

const program = new Command('ditchline')
  .description('Plans one continuous quilting line for a quilt with borders.')
  .version('0.1.0', '-V, --version', 'say which version this is')
  .helpOption('-h, --help', 'say how to use it')
  .exitOverride()
  .showSuggestionAfterError()
  .configureOutput({
    writeErr: (text) => terminal.err(text.trimEnd()),
    writeOut: (text) => terminal.out(text.trimEnd()),
  })

program
  .command('plan')
  .description('the main job: plan the line, write picture, report and line, and sum it up')
  .argument('<file>', 'plan file (YAML or JSON)')
  .option('-o, --out <folder>', 'where to write; a folder named after the plan file unless said')
  .option('--replace', 'allow files that are there already to be replaced')
  .option('--json', 'print the report as JSON instead of words')
  .action(async (file: string, options) =>
    finish((await import('./plan-command.ts')).planCommand(file, options)),
  )

program
  .command('motifs')
  .description('the fillers, their widths and values')
  .argument('[name]', 'tell about one')
  .option('--json', 'print as JSON')
  .action(async (name: string | undefined, options) =>
    finish((await import('./motifs-command.ts')).motifsCommand(name, options)),
  )

program
  .command('new')
  .description('write a commented plan file to start from')
  .argument('<file>', 'the file to write')
  .option('--replace', 'allow the file to be replaced')
  .action(async (file: string, options) =>
    finish((await import('./new-command.ts')).newCommand(file, options)),
  )

async function finish(status: Promise<number>): Promise<void> {
  process.exitCode = await status
}

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // A closed pipe is the reader's choice.
  process.exit(error.code === 'EPIPE' ? DONE : 1)
})

try {
  await program.parseAsync()
} catch (error) {
  if (!(error instanceof CommanderError)) throw error
  process.exitCode = error.exitCode === 0 ? DONE : BAD_INPUT
}
