import { type Method, methodReference } from '@sthene/core';
import type { LabRecomputer } from '@sthene/station';
import { Command } from 'commander';
import { methodNamed } from '../../files/method-named.ts';
import { type LabOptions, withLabOptions } from '../../files/open-lab.ts';
import type { CommandContext } from '../../program.ts';
import { type ExitCode, exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import type { Terminal } from '../../terminal/terminal.ts';
import { progressWords, reportText } from './words.ts';

interface Options extends LabOptions {
  readonly method: string;
  readonly by: string;
  readonly adopt?: boolean;
  readonly discard?: boolean;
  readonly reason?: string;
  readonly json?: boolean;
}

export function recomputeCommand({ terminal, finish }: CommandContext): Command {
  const command = new Command('recompute').description(
    'Judge the archive again by another method, compare, and adopt or discard; nothing old is changed.',
  );
  return withLabOptions(command)
    .requiredOption('--method <METHOD>', 'a built-in method, one of the lab by its hash, or a file')
    .option('--adopt', "put the results in force and make the method the lab's; needs --reason")
    .option('--discard', 'end the run without effect after comparing')
    .option('--reason <TEXT>', 'why it is adopted or discarded, for the audit trail')
    .option('--by <NAME>', 'who does it', 'command line')
    .option('--json', 'print as JSON')
    .addHelpText(
      'after',
      '\nWithout --adopt or --discard the run is left finished: compare and adopt it in the station. A run that was\ninterrupted is gone on with.\n\nExamples:\n  sthene recompute --method fixed-75 --example --discard --reason "only to compare"\n  sthene recompute --method ours.json --adopt --reason "agreed on 3 March" --by Rowan',
    )
    .action(async (options: Options) => finish(await recompute(options, terminal)));
}

async function recompute(options: Options, terminal: Terminal): Promise<ExitCode> {
  checkOptions(options);
  const { ProblemError, recomputeLab } = await import('@sthene/station');
  let lab: LabRecomputer | undefined;
  try {
    lab = await recomputeLab({
      ...(options.data === undefined ? {} : { data: options.data }),
      ...(options.database === undefined ? {} : { database: options.database }),
      lab: options.example ? 'example' : 'lab',
    });
    return await run(lab, options, terminal);
  } catch (error) {
    if (!(error instanceof ProblemError)) throw error;
    const code =
      error.status === 404 ? exitCodes.nothingFound : error.status === 409 ? exitCodes.refused : exitCodes.inputInvalid;
    throw new Failure(error.code, error.message, error.next, code);
  } finally {
    await lab?.close();
  }
}

function checkOptions({ adopt, discard, reason }: Options): void {
  if (adopt && discard)
    throw new Failure(
      'option-conflict',
      'A run is adopted or discarded, not both.',
      'Leave one of them out.',
      exitCodes.usage,
    );
  if ((adopt || discard) && !reason?.trim())
    throw new Failure(
      'reason-missing',
      'Adopting and discarding need a reason.',
      'Say why with --reason.',
      exitCodes.usage,
    );
}

async function run(lab: LabRecomputer, options: Options, terminal: Terminal): Promise<ExitCode> {
  const method: Method = (await lab.method(options.method)) ?? (await methodNamed(options.method, undefined));
  let stopped = false;
  const stop = () => {
    stopped = true;
    terminal.err(`${terminal.lively ? '\n' : ''}Stopping after the trial under way.\n`);
    void lab.stop();
  };
  process.once('SIGINT', stop);
  process.once('SIGTERM', stop);
  const ended = await lab
    .through(method, options.by, (now) => {
      if (terminal.lively) terminal.err(`\r\u001b[K${progressWords(now)}`);
    })
    .finally(() => {
      process.removeListener('SIGINT', stop);
      process.removeListener('SIGTERM', stop);
      if (terminal.lively) terminal.err('\r\u001b[K');
    });
  if (stopped) {
    terminal.err(`${progressWords(ended)}. What was done is kept; the same command goes on.\n`);
    return exitCodes.interrupted;
  }
  if (ended.state === 'failed')
    throw new Failure(
      'recomputation-failed',
      ended.words,
      'What was done is kept; the same command goes on.',
      exitCodes.store,
    );
  const [metrics, flips, failures] = [
    await lab.comparison(ended.id),
    await lab.flips(ended.id),
    await lab.failures(ended.id),
  ];
  if (options.adopt) await lab.adopt(ended.id, options.by, options.reason ?? '');
  if (options.discard) await lab.discard(ended.id, options.by, options.reason ?? '');
  const state = options.adopt ? 'adopted' : options.discard ? 'discarded' : ended.state;
  const found = { ...ended, method: methodReference(method), state, metrics, flips, failures };
  terminal.out(
    options.json ? `${JSON.stringify({ schema: 'sthene.recomputation/1', ...found }, null, 2)}\n` : reportText(found),
  );
  return ended.failed > 0 ? exitCodes.inputInvalid : exitCodes.done;
}
