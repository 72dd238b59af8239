import type { AthleteChange, AthleteView } from '@sthene/contract';
import { type Change, judgeChange, smallestConfirmable, wordByChance } from '@sthene/core/stats';
import { Command, Option } from 'commander';
import { inLab, type LabOptions, withLabOptions } from '../../files/open-lab.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import { numberOption } from '../../terminal/numbers.ts';
import { printable } from '../../terminal/terminal.ts';
import { digits, lines } from '../../terminal/words.ts';

interface Options extends LabOptions {
  readonly test?: string;
  readonly metric?: string;
  readonly against: AthleteChange['reference'];
  readonly now?: number;
  readonly reference?: number;
  readonly error?: number;
  readonly df: number;
  readonly worthwhile: number;
  readonly lowerIsBetter?: boolean;
  readonly json?: boolean;
}

export function changeCommand({ terminal, finish }: CommandContext): Command {
  const command = new Command('change')
    .description('Say whether a change is real: of an athlete of the lab, or of two numbers.')
    .argument('[athlete]', 'code of an athlete of the lab');
  return withLabOptions(command)
    .option('--test <ID>', 'test of the lab (the one with most sessions unless given)')
    .option('--metric <ID>', 'metric of the lab (peak_force unless given)')
    .addOption(
      new Option('--against <REFERENCE>', 'what the newest session is held against')
        .choices(['last', 'mean-of-three', 'season-start', 'first'])
        .default('last'),
    )
    .option('--now <X>', 'instead of an athlete: the new value', numberOption())
    .option('--reference <X>', 'the value before', numberOption())
    .option('--error <X>', 'typical error between sessions, in the same unit', numberOption(0))
    .option('--df <N>', 'degrees of freedom of that error', numberOption(1), Number.POSITIVE_INFINITY)
    .option('--worthwhile <X>', 'smallest worthwhile change', numberOption(0), 0)
    .option('--lower-is-better', 'a smaller value is the better one')
    .option('--json', 'print as JSON')
    .addHelpText(
      'after',
      '\nExamples:\n  sthene change FW10 --example --against first\n  sthene change --now 3180 --reference 3000 --error 105 --df 20 --worthwhile 80',
    )
    .action(async (athlete: string | undefined, options: Options) => {
      terminal.out(athlete === undefined ? ofNumbers(options) : await ofAthlete(athlete, options));
      finish(exitCodes.done);
    });
}

function ofNumbers({ now, reference, error, df, worthwhile, lowerIsBetter, json }: Options): string {
  if (now === undefined || reference === undefined || error === undefined)
    throw new Failure(
      'change-incomplete',
      'There is neither an athlete nor --now, --reference and --error.',
      'Name an athlete by code, or give the three numbers.',
      exitCodes.usage,
    );
  const test = { error: { value: error, df }, worthwhile, sessions: [1, 1] as const };
  const change = judgeChange({ ...test, now, reference, better: lowerIsBetter ? 'less' : 'more' });
  const [chance, confirmable] = [wordByChance(test), smallestConfirmable(test)];
  if (json) return `${JSON.stringify({ schema: 'sthene.change/1', change, chance, confirmable }, null, 2)}\n`;
  return lines([
    ['word', change.word],
    ...shared(change),
    ['detectable, 95 %', digits(change.detectable, 2)],
    ['confirmable', `${digits(confirmable, 2)}: the smallest true gain called stronger four times in five`],
    ['by chance', `${digits(100 * chance.sure, 1)} in 100 who did not change would get a sure word`],
  ]);
}

const shared = ({
  difference,
  intervals,
  more,
  within,
  less,
}: Pick<Change, 'difference' | 'intervals' | 'more' | 'within' | 'less'>) =>
  [
    ['difference', digits(difference, 2)],
    ...intervals.map(
      ({ level, low, high }) => [`  ${Math.round(100 * level)} %`, `${digits(low, 2)} to ${digits(high, 2)}`] as const,
    ),
    [
      'probabilities',
      `${digits(100 * more, 1)} % more, ${digits(100 * within, 1)} % within the worthwhile change, ${digits(100 * less, 1)} % less (flat prior)`,
    ],
  ] as const satisfies readonly (readonly [string, string])[];

async function ofAthlete(code: string, { test, metric, against, json, ...lab }: Options): Promise<string> {
  const view = await inLab(lab, (open) =>
    open.athlete(code, { ...(test === undefined ? {} : { test }), ...(metric === undefined ? {} : { metric }) }),
  );
  if (json) return `${JSON.stringify({ schema: 'sthene.athlete-change/1', ...view }, null, 2)}\n`;
  const change = view.changes.find(({ reference }) => reference === against);
  const head = `${printable(`${view.person.givenName} ${view.person.familyName}`)} (${printable(view.person.code)}), ${view.test ?? 'no test'}, ${view.metric.title}\n`;
  return (
    head +
    (change === undefined
      ? 'No word on a change yet: there are too few sessions, or no known noise.\n'
      : text(view, change))
  );
}

const against: Readonly<Record<AthleteChange['reference'], string>> = {
  last: 'the session before',
  'mean-of-three': 'the mean of the three before',
  'season-start': 'the first session of the season',
  first: 'the first session',
};

function text({ metric, noise, scale }: AthleteView, change: AthleteChange): string {
  const { unit } = metric;
  const on = scale === 'log' ? '(100 ln x)' : unit;
  return lines([
    ...(change.unlike.length > 0 ? [['not alike', change.unlike.join(', ')] as const] : []),
    ['word', change.word],
    ['against', `${against[change.reference]}, ${digits(change.value, 1)} ${unit}`],
    [
      'difference',
      `${digits(change.difference, 1)} ${unit}${change.percent === undefined ? '' : ` (${digits(change.percent, 1)} %)`}`,
    ],
    ...change.intervals.map(
      ({ level, low, high }) =>
        [`  ${Math.round(100 * level)} %`, `${digits(low, 1)} to ${digits(high, 1)} ${unit}`] as const,
    ),
    [
      'probabilities',
      `${digits(100 * change.more, 1)} % more, ${digits(100 * change.within, 1)} % within the worthwhile change, ${digits(100 * change.less, 1)} % less (flat prior)`,
    ],
    ...(noise.used === undefined
      ? []
      : [['typical error', `${digits(noise.used.value, 2)} ${on}, df ${digits(noise.used.df, 0)}`] as const]),
    ['detectable, 95 %', `${digits(change.detectable, 1)} ${unit}`],
    [
      'confirmable',
      `${digits(change.confirmable, 1)} ${unit}: the smallest true gain called stronger four times in five`,
    ],
    ['by chance', `${digits(100 * change.byChance, 1)} in 100 who did not change would get a sure word`],
  ]);
}
