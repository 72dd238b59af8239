import { existsSync } from 'node:fs';
import { open, rename, rm } from 'node:fs/promises';
import { Command } from 'commander';
import { changingLab, type LabOptions, withLabOptions } from '../../files/open-lab.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';

interface ExchangeOptions extends LabOptions {
  readonly names?: boolean;
  readonly overwrite?: boolean;
}

export function exchangeCommand({ terminal, finish }: CommandContext): Command {
  const command = new Command('exchange')
    .description(
      'Take every value out as one long CSV with ids, units, verdicts and method hashes, for an athlete database or another lab.',
    )
    .argument('[out]', 'where the file goes; printed when left out');
  return withLabOptions(command)
    .option('--names', 'names and dates of birth too; people are named by their code alone otherwise')
    .option('--overwrite', 'replace a file that exists')
    .addHelpText(
      'after',
      '\nExamples:\n  sthene exchange results.csv\n  sthene exchange --example | head\n\nThe columns: docs/reference/exchange-format.md. `sthene import-results` reads the file back.',
    )
    .action(async (out: string | undefined, options: ExchangeOptions) => {
      if (out !== undefined && options.overwrite !== true && existsSync(out))
        throw new Failure(
          'output-exists',
          `"${out}" exists already.`,
          'Choose another place, or add --overwrite.',
          exitCodes.store,
        );
      const rows = await changingLab(options, async (lab) => {
        const lines = lab.exchange({ names: options.names === true });
        if (out === undefined) {
          let rows = -1;
          for await (const text of lines) {
            terminal.out(text);
            rows += text.split('\r\n').length - 1;
          }
          return rows;
        }
        return writePieces(out, lines);
      });
      if (out !== undefined) terminal.err(`Wrote ${rows} ${rows === 1 ? 'row' : 'rows'}: ${out}\n`);
      finish(rows === 0 ? exitCodes.nothingFound : exitCodes.done);
    });
}

/** Writes a file whole or not at all, piece by piece; gives the number of its rows behind the headings. */
async function writePieces(path: string, pieces: AsyncIterable<string>): Promise<number> {
  const temporary = `${path}.${process.pid}.part`;
  let rows = -1;
  try {
    const file = await open(temporary, 'w');
    try {
      for await (const text of pieces) {
        await file.write(text);
        rows += text.split('\r\n').length - 1;
      }
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(temporary, path);
    return rows;
  } catch (error) {
    await rm(temporary, { force: true });
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined || (error as Error).name === 'ProblemError') throw error;
    throw new Failure(
      'output-not-written',
      `"${path}" could not be written (${code}).`,
      'Check the folder, its permissions and the free space.',
      exitCodes.store,
    );
  }
}
