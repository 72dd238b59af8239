import { createReadStream, existsSync } from 'node:fs';
import { basename } from 'node:path';
import { Command } from 'commander';
import { changingLab, type LabOptions, withLabOptions } from '../../files/open-lab.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import { chosenFrom, decidePeople, type ResultsOptions } from './choices.ts';
import { outcomeWords } from './words.ts';

type Options = LabOptions & ResultsOptions & { readonly dryRun?: boolean; readonly json?: boolean };

export function importResultsCommand({ terminal, finish }: CommandContext): Command {
  const command = new Command('import-results')
    .description(
      'Bring in a table of earlier results (CSV, XLSX) or an exchange file as sessions without curves, never mixed with our own values.',
    )
    .argument('<file>', 'the table');
  return withLabOptions(command)
    .option('--method-label <TEXT>', 'by which method the values were made; "not known" is an answer')
    .option('--test <TEST>', 'id of the test, where the table has no column of tests')
    .option('--mapping <FILE>', 'how the columns are understood, as --dry-run --json prints it')
    .option('--sheet <NAME>', 'which sheet of a spreadsheet')
    .option('--day-order <ORDER>', 'ymd, dmy or mdy, where days can be read in two ways')
    .option('--decimal <SIGN>', 'decimal sign, "." or ","')
    .option('--people <FILE>', 'JSON: our code for each name or code of the table, "new" to add, "" to leave out')
    .option('--create-unknown', 'add everybody who is not in the lab as a new athlete')
    .option('--keep-duplicates', 'also take values that are there already')
    .option('--by <NAME>', 'who signs for it', 'command line')
    .option('--dry-run', 'say what would be imported and change nothing')
    .option('--json', 'print as JSON')
    .addHelpText(
      'after',
      '\nExamples:\n  sthene import-results seasons.xlsx --test imtp --method-label "other lab, 5 SD onset" --dry-run\n  sthene import-results exchange.csv --create-unknown',
    )
    .action(async (path: string, options: Options) => {
      if (!existsSync(path))
        throw new Failure(
          'file-not-found',
          `There is no file "${path}" that can be read.`,
          'Check the spelling and the folder.',
          exitCodes.inputInvalid,
        );
      const choices = await chosenFrom(options);
      const done = await changingLab(options, (lab) =>
        lab.bringIn({
          name: basename(path),
          bytes: createReadStream(path),
          ...(options.sheet === undefined ? {} : { sheet: options.sheet }),
          choose: choices.choose,
          decide: (people) => decidePeople(people, choices.people, options, (code) => lab.personByCode(code)),
          dryRun: options.dryRun === true,
        }),
      );
      terminal.out(
        options.json
          ? `${JSON.stringify({ schema: 'sthene.import-results/1', mapping: done.request.mapping, outcome: done.outcome }, null, 2)}\n`
          : outcomeWords(done.preview, done.outcome),
      );
      finish(done.outcome.values === 0 ? exitCodes.nothingFound : exitCodes.done);
    });
}
