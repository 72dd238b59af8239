import { reasons } from '@sthene/core';
import { type AgreementStudy, agreementStudy, type MethodLine } from '@sthene/core/stats';
import { Command } from 'commander';
import { columnOf, numberIn, readTable } from '../../files/table.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import { numberOption } from '../../terminal/numbers.ts';
import { digits, lines, orReason, percentOf, withInterval } from '../../terminal/words.ts';

interface Options {
  readonly first: string;
  readonly second: string;
  readonly ratio: number;
  readonly level: number;
  readonly json?: boolean;
}

export function agreementCommand({ terminal, finish }: CommandContext): Command {
  return new Command('agreement')
    .description('Compare two methods on the same trials: limits of agreement and lines between them.')
    .argument('<file>', 'a CSV table with a column for each method')
    .option('--first <COLUMN>', 'column of the first method, by heading or number', '1')
    .option('--second <COLUMN>', 'column of the second method', '2')
    .option(
      '--ratio <R>',
      "variance of the second method's errors over the first's, for Deming's line",
      numberOption(1e-6, 1e6),
      1,
    )
    .option('--level <P>', 'probability of the intervals', numberOption(0.5, 0.999), 0.95)
    .option('--json', 'print as JSON')
    .addHelpText('after', '\nExample:\n  sthene agreement onsets.csv --first "five SD" --second "by hand" --json')
    .action((file: string, options: Options) => {
      const table = readTable(file);
      const [first, second] = [columnOf(table, options.first), columnOf(table, options.second)];
      const pairs = table.rows.flatMap((_, at) => {
        const [a, b] = [numberIn(table, at, first), numberIn(table, at, second)];
        return a === null || b === null ? [] : [[a, b] as const];
      });
      const study = agreementStudy(
        pairs.map(([a]) => a),
        pairs.map(([, b]) => b),
        options,
      );
      if (!study.ok)
        throw new Failure(
          study.reason,
          reasons[study.reason].means,
          reasons[study.reason].next,
          exitCodes.inputInvalid,
        );
      const leftOut = table.rows.length - pairs.length;
      terminal.out(
        options.json
          ? `${JSON.stringify({ schema: 'sthene.agreement/1', first, second, leftOut, study: study.value }, null, 2)}\n`
          : text(study.value, first, second, leftOut),
      );
      finish(exitCodes.done);
    });
}

function text(study: AgreementStudy, first: string, second: string, leftOut: number): string {
  const line = ({ slope, intercept }: MethodLine) =>
    `slope ${withInterval(slope)}, intercept ${withInterval(intercept)}`;
  const { bias } = study;
  return lines([
    [
      'differences',
      `${second} less ${first}, ${study.n} pairs${leftOut > 0 ? `, ${leftOut} lines left out (a value is missing)` : ''}`,
    ],
    ['intervals', percentOf(study.level)],
    ['bias', orReason(study.limits, (one) => withInterval(one.bias))],
    [
      'limits of agreement',
      orReason(study.limits, ({ lower, upper }) => `${withInterval(lower)} and ${withInterval(upper)}`),
    ],
    [
      'on size',
      orReason(
        study.proportional,
        ({ line: { slope, p }, spread }) =>
          `difference on mean: slope ${digits(slope)}, p = ${digits(p)}; spread with size: r = ${digits(spread.r, 2)}, p = ${digits(spread.p)}`,
      ),
    ],
    ['least products', orReason(study.leastProducts, line)],
    ['Deming', orReason(study.deming, line)],
    [
      'Passing-Bablok',
      orReason(study.passingBablok, (one) => `${line(one)}${one.small ? ' (fewer than 30 pairs: rough)' : ''}`),
    ],
    ...(bias === undefined
      ? []
      : [
          [
            'in words',
            `${bias.fixed ? 'a fixed bias' : 'no fixed bias shown'}, ${bias.proportional ? 'a proportional bias' : 'no proportional bias shown'} (least products)`,
          ] as const,
        ]),
  ]);
}
