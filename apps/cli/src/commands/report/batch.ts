import { inLab } from '../../files/open-lab.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import { printable, type Terminal } from '../../terminal/terminal.ts';
import { writeOut } from '../analyze/write-out.ts';
import { queryOf, type ReportOptions } from './options.ts';

/** What came of a batch. */
export interface Written {
  readonly files: readonly string[];
  readonly failed: readonly { readonly code: string; readonly reason: string; readonly message: string }[];
}

/** A page for each athlete, one after the other. An athlete without one is named and takes no other page away. */
export async function batch(options: ReportOptions, terminal: Terminal): Promise<Written> {
  const { ProblemError } = await import('@sthene/station');
  return inLab(options, async (lab) => {
    const people = await lab.members(options.squad);
    if (people.length === 0)
      throw new Failure('report-nobody', 'There is nobody.', 'Choose another squad.', exitCodes.nothingFound);
    const files: string[] = [];
    const failed: Written['failed'][number][] = [];
    for (const [i, { code, name }] of people.entries()) {
      const line = `${i + 1} of ${people.length}  ${printable(name)} (${printable(code)})`;
      try {
        const { squad: _, ...query } = queryOf(options);
        const file = await lab.report('athlete', { ...query, person: code });
        files.push(await writeOut(options.out, file.name, file.bytes, options.overwrite === true));
        terminal.err(`${line}\n`);
      } catch (error) {
        if (!(error instanceof ProblemError)) throw error;
        failed.push({ code, reason: error.code, message: error.message });
        terminal.err(`${line}: no page. ${error.message} [${error.code}]\n`);
      }
    }
    return { files, failed };
  });
}
