import { type Command, InvalidArgumentError, Option } from 'commander';

/** What `sthene analyze` was told, after parsing; units as printed in the help. */
export interface AnalyzeOptions {
  readonly test: string;
  readonly method: string;
  readonly time?: string;
  readonly rate?: number;
  readonly left?: string;
  readonly right?: string;
  readonly total?: string;
  readonly leftPlate?: number;
  readonly rightPlate?: number;
  readonly unit?: string;
  readonly newtonsPerUnit?: number;
  readonly zero?: number;
  readonly flip?: boolean;
  readonly layout?: 'channels' | 'trials';
  readonly delimiter?: string;
  readonly decimal?: '.' | ',';
  readonly bodyWeight?: number;
  readonly baseline?: number;
  readonly from?: number;
  readonly to?: number;
  readonly cue?: number;
  readonly boxHeight?: number;
  readonly load?: number;
  readonly gravity: number;
  readonly efforts: 'largest' | 'all';
  readonly json?: boolean;
  readonly csv?: boolean;
  readonly out?: string;
  readonly package?: string;
  readonly overwrite?: boolean;
}

const number = (accept: (value: number) => boolean, words: string) => (text: string) => {
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (!Number.isFinite(value) || !accept(value)) throw new InvalidArgumentError(words);
  return value;
};
export const positive = number((value) => value > 0, 'Give a number above zero, with a decimal point.');
const atLeastZero = number((value) => value >= 0, 'Give a number of zero or more, with a decimal point.');
const nonZero = number((value) => value !== 0, 'Give a number other than zero, with a decimal point.');
const any = number(() => true, 'Give a number, with a decimal point.');
const plate = number((value) => Number.isInteger(value) && value >= 1, 'Give the plate by its number, from 1.');

/** The options that say how a file is read and which of its columns are forces; shared with `methods compare`. */
export function withReadingOptions(command: Command): Command {
  return command
    .option('--time <COL>', 'time column, by name or number')
    .option('--rate <HZ>', 'samples a second: needed without a time column', positive)
    .option('--left <COL>', 'force under the left foot or hand, by name or number')
    .option('--right <COL>', 'force under the right foot or hand')
    .option('--total <COL>', 'force of both together')
    .option('--left-plate <N>', 'force platform of a C3D file, by number', plate)
    .option('--right-plate <N>', 'force platform of a C3D file, by number', plate)
    .option('--unit <U>', 'unit of the forces, where the file does not say: N, kN, mN, kgf, lbf, N.m, V')
    .option('--newtons-per-unit <X>', 'gain of a channel in volts (or any unit): newtons = X * (value - zero)', nonZero)
    .option('--zero <X>', 'value of an unloaded channel, in its own unit', any)
    .option('--flip', 'turn the sign round: the channel is negative when pressed')
    .addOption(
      new Option('--layout <KIND>', 'columns are channels of one trial, or one trial each').choices([
        'channels',
        'trials',
      ]),
    )
    .option('--delimiter <SIGN>', 'sign between columns, where it is not recognised')
    .addOption(new Option('--decimal <SIGN>', 'decimal sign, where it is not recognised').choices(['.', ',']));
}

/** The options that say what is analysed and by which test; shared with `methods compare`. */
export function withTestOptions(command: Command): Command {
  return command
    .option('--test <ID>', 'which test it was: imtp, countermovement-jump, ...', 'imtp')
    .option('--body-weight <N>', 'weighed body weight in newtons; else the quiet second before the pull', positive)
    .option(
      '--baseline <SECONDS>',
      'length of the quiet window; makes a derived method, named and hashed as such',
      positive,
    )
    .option('--from <S>', 'analyse only from this second of the file', atLeastZero)
    .option('--to <S>', 'analyse only up to this second of the file', positive)
    .option('--cue <S>', 'second of the file at which the cue sounded', atLeastZero)
    .option('--box-height <CM>', 'drop jumps: height of the box', positive)
    .option('--load <KG>', 'loaded jumps: load carried', positive)
    .option('--gravity <G>', 'g of the site, m/s2', positive, 9.80665)
    .addOption(
      new Option('--efforts <WHICH>', 'the largest effort of a file, or all')
        .choices(['largest', 'all'])
        .default('largest'),
    );
}
