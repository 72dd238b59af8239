import { extname, join } from 'node:path';
import { Command } from 'commander';
import { inLab, type LabOptions, withLabOptions } from '../../files/open-lab.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import { writeWhole } from '../analyze/write-out.ts';
import { exportFiles } from './files.ts';

interface ExportOptions extends LabOptions {
  readonly all?: boolean;
  readonly format?: string;
  readonly overwrite?: boolean;
}

export function exportCommand({ terminal, finish }: CommandContext): Command {
  const command = new Command('export')
    .description(
      'Take sessions out: one Data Package (OUT ends in .zip), or a folder of curves with a table of results.',
    )
    .argument('[session]', 'id of a session; leave it out with --all')
    .argument('[out]', 'a .zip file, or a folder');
  return withLabOptions(command)
    .option('--all', 'every session')
    .option('--format <FORMAT>', 'curves in the folder as parquet or csv', 'parquet')
    .option('--overwrite', 'replace files that exist')
    .addHelpText(
      'after',
      '\nExamples:\n  sthene export 3f0c8a5e-8f0f-4a52-9d1c-2f7a54b7a0c1 session.zip\n  sthene export --all out --format csv',
    )
    .action(async (first: string | undefined, second: string | undefined, options: ExportOptions) => {
      const out = options.all ? (second ?? first) : second;
      const session = options.all ? undefined : first;
      if (out === undefined || (session === undefined && !options.all) || (options.all && second !== undefined))
        throw new Failure(
          'export-what',
          'Name one session and where it goes, or --all and where they go.',
          'See `sthene export --help`.',
          exitCodes.usage,
        );
      if (options.format !== 'parquet' && options.format !== 'csv')
        throw new Failure(
          'output-format-unknown',
          `Curves are not written as "${options.format}".`,
          'Use parquet or csv, or let OUT end in .zip.',
          exitCodes.usage,
        );
      const format = options.format;
      const written = await inLab(options, async (lab) => {
        const ids = session === undefined ? (await lab.sessions()).map(({ id }) => id) : [session];
        if (ids.length === 0) return 0;
        if (extname(out).toLowerCase() === '.zip') {
          await writeWhole(out, await lab.package(ids), options.overwrite === true);
          return 1;
        }
        let files = 0;
        for await (const { name, content } of exportFiles(lab, ids, format)) {
          await writeWhole(join(out, name), content, options.overwrite === true, out);
          files++;
        }
        return files;
      });
      terminal.err(
        written === 0 ? 'There is no session.\n' : `Wrote ${written} ${written === 1 ? 'file' : 'files'}: ${out}\n`,
      );
      finish(written === 0 ? exitCodes.nothingFound : exitCodes.done);
    });
}
