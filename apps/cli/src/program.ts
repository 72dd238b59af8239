import { version } from '@sthene/contract';
import { Command, CommanderError } from 'commander';
import { agreementCommand } from './commands/agreement/command.ts';
import { analyzeCommand } from './commands/analyze/command.ts';
import { changeCommand } from './commands/change/command.ts';
import { convertCommand } from './commands/convert/command.ts';
import { exchangeCommand } from './commands/exchange/command.ts';
import { exportCommand } from './commands/export/command.ts';
import { importResultsCommand } from './commands/import-results/command.ts';
import { inspectCommand } from './commands/inspect/command.ts';
import { methodsCommand } from './commands/methods/command.ts';
import { protocolsCommand } from './commands/protocols/command.ts';
import { ratiosCommand } from './commands/ratios/command.ts';
import { recomputeCommand } from './commands/recompute/command.ts';
import { reliabilityCommand } from './commands/reliability/command.ts';
import { reportCommand } from './commands/report/command.ts';
import { sessionsCommand } from './commands/sessions/command.ts';
import { stationCommand } from './commands/station/command.ts';
import { trialsCommand } from './commands/trials/command.ts';
import { type ExitCode, exitCodes } from './terminal/exit-codes.ts';
import { Failure } from './terminal/failure.ts';
import type { Terminal } from './terminal/terminal.ts';

/** What a command is given besides its arguments; it answers with its exit code. */
export interface CommandContext {
  readonly terminal: Terminal;
  finish(code: ExitCode): void;
}

/**
 * Runs one command line and returns the exit code. Data go to `terminal.out`, everything said goes to `terminal.err`; a
 * refusal is one line with its code, then the next step.
 */
export async function run(args: readonly string[], terminal: Terminal): Promise<number> {
  let code: number = exitCodes.done;
  const context: CommandContext = {
    terminal,
    finish: (ended) => {
      code = ended;
    },
  };
  const program = new Command('sthene')
    .description('From a recording of a strength test to a number that can be defended.')
    .version(version, '--version', 'print the version')
    .helpOption('--help', 'show this help')
    .helpCommand(false)
    .showSuggestionAfterError(true)
    .exitOverride()
    .configureOutput({ writeOut: terminal.out, writeErr: terminal.err })
    .addHelpText(
      'after',
      '\nExamples:\n  sthene inspect pull.csv\n  sthene analyze pull.csv --json\n  sthene station\n\nEach command has a --help of its own. Exit codes: docs/reference/command-line.md.',
    );
  for (const make of [
    analyzeCommand,
    inspectCommand,
    convertCommand,
    methodsCommand,
    protocolsCommand,
    stationCommand,
    sessionsCommand,
    trialsCommand,
    exportCommand,
    exchangeCommand,
    importResultsCommand,
    reliabilityCommand,
    recomputeCommand,
    agreementCommand,
    changeCommand,
    ratiosCommand,
    reportCommand,
  ]) {
    const command = make(context);
    command
      .helpOption('--help', 'show this help')
      .helpCommand(false)
      .exitOverride()
      .configureOutput({ writeOut: terminal.out, writeErr: terminal.err });
    for (const inner of command.commands)
      inner
        .helpOption('--help', 'show this help')
        .exitOverride()
        .configureOutput({ writeOut: terminal.out, writeErr: terminal.err });
    program.addCommand(command);
  }
  if (args.length === 0) {
    terminal.err(program.helpInformation());
    return exitCodes.usage;
  }
  try {
    await program.parseAsync([...args], { from: 'user' });
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.done : exitCodes.usage;
    if (error instanceof Failure) {
      terminal.err(`sthene: ${error.message} [${error.code}]\n  ${error.next}\n`);
      return error.exitCode;
    }
    terminal.err(
      `sthene: something unexpected happened [unexpected]\n  ${error instanceof Error ? error.message : String(error)}\n  No file was changed. Please report it with the command you ran.\n`,
    );
    if (process.env.STHENE_TRACE && error instanceof Error) terminal.err(`${error.stack}\n`);
    return exitCodes.unexpected;
  }
  return code;
}
