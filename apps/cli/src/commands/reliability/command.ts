import { metricFacts, reasons } from '@sthene/core';
import { reliabilityStudy, type Scale } from '@sthene/core/stats';
import { Command } from 'commander';
import { inLab, type LabOptions, withLabOptions } from '../../files/open-lab.ts';
import { readTable } from '../../files/table.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import { numberOption } from '../../terminal/numbers.ts';
import { type NamedTable, tableOf } from './table.ts';
import { studyText } from './words.ts';

interface Options extends LabOptions {
  readonly person?: string;
  readonly occasion?: string;
  readonly value?: string;
  readonly test: string;
  readonly metric: string;
  readonly sessions: number;
  readonly log?: boolean;
  readonly unit?: string;
  readonly level: number;
  readonly json?: boolean;
}

interface Asked extends NamedTable {
  readonly scale: Scale;
  readonly unit: string;
}

export function reliabilityCommand({ terminal, finish }: CommandContext): Command {
  const command = new Command('reliability')
    .description('Say how good a test is: ICC, typical error, detectable and worthwhile change, learning.')
    .argument('[file]', 'a CSV table: a line for each person, a column for each occasion; else the lab');
  return withLabOptions(command)
    .option('--person <COLUMN>', 'column of the person, by heading or number (the first unless given)')
    .option('--value <COLUMN>', 'column of the value, where each line holds one value')
    .option('--occasion <COLUMN>', 'column of the occasion in such a table (the second unless given)')
    .option('--test <ID>', 'test of the lab', 'imtp')
    .option('--metric <ID>', 'metric of the lab', 'peak_force')
    .option('--sessions <N>', 'newest sessions of each athlete of the lab', numberOption(2, 50), 2)
    .option('--log', 'in logs, errors in per cent; forces of the lab are so by themselves')
    .option('--unit <CODE>', 'unit of the values in the file, for the text')
    .option('--level <P>', 'probability of the intervals', numberOption(0.5, 0.999), 0.95)
    .option('--json', 'print as JSON')
    .addHelpText(
      'after',
      '\nExamples:\n  sthene reliability winter.csv --unit N\n  sthene reliability long.csv --person athlete --occasion day --value peak --log\n  sthene reliability --example --sessions 3 --json',
    )
    .action(async (file: string | undefined, options: Options) => {
      const asked = file === undefined ? await fromLab(options) : fromFile(file, options);
      const study = reliabilityStudy(asked.values, asked.scale, options.level);
      if (!study.ok)
        throw new Failure(
          study.reason,
          reasons[study.reason].means,
          reasons[study.reason].next,
          exitCodes.inputInvalid,
        );
      const { people, occasions, unit } = asked;
      terminal.out(
        options.json
          ? `${JSON.stringify({ schema: 'sthene.reliability/1', unit, people, occasions, study: study.value }, null, 2)}\n`
          : studyText(study.value, asked, unit),
      );
      finish(exitCodes.done);
    });
}

function fromFile(file: string, options: Options): Asked {
  return { ...tableOf(readTable(file), options), scale: options.log ? 'log' : 'unit', unit: options.unit ?? '' };
}

/** The newest sessions of each athlete, the first of all left out as familiarisation. */
async function fromLab(options: Options): Promise<Asked> {
  if (!metricFacts.has(options.metric))
    throw new Failure(
      'metric-unknown',
      `There is no metric "${options.metric}".`,
      'docs/reference/metrics.md lists them.',
      exitCodes.usage,
    );
  const count = options.sessions;
  const { people, values, unit, scale } = await inLab(options, (lab) =>
    lab.newestSessions(options.test, options.metric, count),
  );
  const occasions = Array.from({ length: count }, (_, j) => (j === count - 1 ? 'newest' : `${count - 1 - j} before`));
  return { people, occasions, values, unit, scale: options.log ? 'log' : scale };
}
