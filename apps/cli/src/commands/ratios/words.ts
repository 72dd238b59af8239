import type { BatteryView, Ratio, RatioCaution, RatioLack, RatioWord } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';
import { printable } from '../../terminal/terminal.ts';
import { digits, lines } from '../../terminal/words.ts';

type Line = readonly [name: string, said: string];

/** What the tests of an athlete say together, as a person reads it. */
export function batteryText({ person, on, apart, ratios, profile }: BatteryView): string {
  const head = `${printable(person.name)} (${printable(person.code)})${on === undefined ? '' : `, until ${on}`}; tests of one ratio ${apart === 0 ? 'on the same day' : `at most ${days(apart)} apart`}\n`;
  const said = ratios.flatMap(({ title, unit, current, lack, newer, history }): Line[] => [
    [title, current === undefined ? none(lack, apart) : value(current, unit)],
    ...(current === undefined ? [] : ofRatio(current, history.length)),
    ...newer.map(({ test, at, reason }): Line => ['', `newer: ${testTitle(test)} of ${day(at)}: ${without[reason]}`]),
  ]);
  return `${head}${lines([...said, ...ofProfile(profile)])}A ratio does not diagnose and is no plan of training by itself.\n`;
}

const testTitle = (id: string): string => protocolRegistry.get(id)?.title ?? id;
/** Its day where the command runs, which is the station itself. */
function day(instant: string): string {
  const at = new Date(instant);
  return [at.getFullYear(), at.getMonth() + 1, at.getDate()].map((n) => String(n).padStart(2, '0')).join('-');
}
const counted = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;
const days = (n: number): string => counted(n, 'day', 'days');
const decimals = (unit: string): number => (unit === 'N' ? 0 : unit === 'm' ? 3 : unit === '%' ? 1 : 2);
const shown = (number: number, unit: string): string =>
  `${digits(number, decimals(unit))}${unit === '1' ? '' : ` ${unit}`}`;

const words: Readonly<Record<RatioWord, string>> = {
  strength: 'over 0.80: maximal force would be the emphasis',
  balanced: 'between 0.60 and 0.80: balanced',
  ballistic: 'under 0.60: fast force would be the emphasis',
  gain: 'the countermovement adds height',
  'no-gain': 'the countermovement adds no height',
  deficit: 'both legs together give less than the sum of each alone',
  facilitation: 'both legs together give more than the sum of each alone',
  undecided: 'undecided',
};

const because = {
  'interval-crosses': 'its interval contains a limit',
  'isometric-low': 'the pull was more than two errors below the usual one',
  'no-error': 'its error is not known yet',
} as const;

function value({ value, error, interval, word, because: why, at }: Ratio, unit: string): string {
  const sure =
    error === undefined || interval === undefined
      ? ''
      : `, typical error ${shown(error, unit)}, 95 % ${digits(interval.low, decimals(unit))} to ${digits(interval.high, decimals(unit))}`;
  return `${shown(value, unit)} on ${day(at)}${sure}: ${words[word]}${why === undefined ? '' : `, ${because[why]}`}`;
}

const without: Readonly<Record<BatteryView['ratios'][number]['newer'][number]['reason'], string>> = {
  'too-far-apart': 'no other test near enough is left for it',
  'other-method': 'the test near it was judged by another method',
  'no-value': 'a value is not above zero',
};

const cautions: Readonly<Record<RatioCaution, string>> = {
  'first-session': 'a test was done for the first time',
  'days-apart': 'days lie between the tests',
  'arms-differ': 'the arms were not held alike',
  dip: 'a squat jump that counts sank before its push, which draws the ratio towards 1',
  'squat-jump-used': 'made with the squat jump, whose index repeats worse than that of the countermovement jump',
  'error-of-trials': 'an error is that of one session’s efforts; from day to day it is larger',
};

const ofRatio = ({ components, cautions: found }: Ratio, n: number): Line[] => [
  ...components.map(
    (one): Line => [
      `  ${one.role}`,
      `${shown(one.value, one.unit)}${one.error === undefined ? '' : ` ± ${digits(one.error, decimals(one.unit))}`}  ${testTitle(one.test)}, ${day(one.at)}, ${one.n} of ${one.maximal} efforts, session ${one.session}`,
    ],
  ),
  ...found.map((one): Line => ['', `mind: ${cautions[one]}`]),
  ['', `${n} in all`],
];

function none(lack: RatioLack | undefined, apart: number): string {
  if (lack === undefined) return 'none';
  const tests = lack.tests.map(testTitle).join(', ');
  const received =
    lack.received === 0
      ? ''
      : ` Results only that were brought in (${counted(lack.received, 'session', 'sessions')}) are never mixed with them.`;
  switch (lack.reason) {
    case 'test-missing':
      return `none: no session of ${tests}. Test it.${received}`;
    case 'no-value':
      return `none: no effort that counts in ${tests}. Look at its trials, or test again.${received}`;
    case 'other-method':
      return `none: ${tests} were judged by different methods. Recompute the archive with one.`;
    case 'too-far-apart':
      return `none: the nearest tests lie ${lack.days === undefined ? 'many days' : days(lack.days)} apart, more than ${apart}. Test them ${apart === 0 ? 'on one day' : `within ${days(apart)}`}, or allow more with --apart.`;
  }
}

function ofProfile({ current, lack }: BatteryView['profile']): Line[] {
  const title = 'Force-velocity profile';
  const missing =
    lack && lack.loadMissing > 0 && lack.reason !== 'loads-not-written'
      ? ` ${counted(lack.loadMissing, 'session has', 'sessions have')} no load written down.`
      : '';
  const reasons = {
    'no-loads': 'none: no loaded jump. Jump with at least three loads beside the unloaded jump.',
    'loads-not-written': 'none: no load is written down for the loaded jumps. Write it into the setup of each session.',
    'too-few-loads': `no line: ${counted(lack?.loads ?? 0, 'load', 'loads')}, and it takes ${lack?.needed}. Jump with more loads.`,
    'no-push-off': 'none: the push-off distance is not known. Give it with --push-off.',
    'no-fit': 'no line: force does not fall with velocity. Look at the jumps.',
  } as const;
  const why: Line[] = lack === undefined ? [] : [[title, `${reasons[lack.reason]}${missing}`]];
  if (current === undefined) return why;
  const { line, points, pushOff, pushOffFrom } = current;
  return [
    ...why,
    ...(line === undefined
      ? []
      : [
          [
            title,
            `F0 ${digits(line.f0, 0)} N (${digits(line.intervals.f0.low, 0)} to ${digits(line.intervals.f0.high, 0)}), V0 ${digits(line.v0, 2)} m/s (${digits(line.intervals.v0.low, 2)} to ${digits(line.intervals.v0.high, 2)}), largest power ${digits(line.powerMax, 0)} W (${digits(line.intervals.powerMax.low, 0)} to ${digits(line.intervals.powerMax.high, 0)})`,
          ] as const,
          [
            '',
            `r² ${digits(line.r2, 3)} over ${counted(points.length, 'load', 'loads')}${line.accepted ? '' : ': under 0.95, not to be used'}`,
          ] as const,
        ]),
    [
      '',
      `push-off distance ${digits(100 * pushOff, 1)} cm, ${pushOffFrom === 'plates' ? 'as the plates measured it' : 'as given'}`,
    ],
    ...points.map(
      (one): Line => [
        `  ${digits(one.load, one.load % 1 === 0 ? 0 : 1)} kg`,
        `${digits(one.force, 0)} N at ${digits(one.velocity, 2)} m/s  height ${shown(one.height, 'm')}, ${day(one.at)}, session ${one.session}`,
      ],
    ),
  ];
}
