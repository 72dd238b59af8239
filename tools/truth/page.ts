import { faults, goodPull, methodReference } from '@sthene/core';
import type { Options } from './options.ts';
import type { ScoredPull } from './score.ts';
import { asMarkdown, tablesOf } from './table.ts';

const words = ([low, high]: readonly [number, number]): string => `${low} to ${high}`;

/** The page of the documentation: how the pulls are made, every table, every range. */
export function truthPage(pulls: readonly ScoredPull[], options: Options): string {
  const { name, version, sha256 } = methodReference(options.method);
  const intro = [
    '# Truth table',
    '',
    'How good are the checks and the onset? Simulated pulls, whose onset, body weight and faults are known, are judged as live',
    'trials with a weighing, and truth is set beside verdict. This page is written by `npm run truth -- --docs`; do not edit it.',
    '',
    `Method: ${name}, version ${version} (\`${sha256}\`). ${pulls.length} pulls; seed ${options.seed}; ${options.rate} Hz; noise of each`,
    `plate ${options.noise.join(', ')} N; body mass ${options.bodyWeight.join(', ')} kg.`,
    '',
    'A laboratory can score a method with its own plates and athletes:',
    '`npm run truth -- --noise 0.4 --body-weight 60,70,80 --method my-method.json`.',
    '',
    '',
  ].join('\n');
  const [reached, ...others] = tablesOf(pulls).map(asMarkdown);
  return [`${intro}${reached}`, firstDefinitions(), ...others, goodRanges(), faultRanges()].join('\n');
}

/** What the first definitions reached (commit c804934), measured with this program on the same pulls before they were changed. */
function firstDefinitions(): string {
  return [
    '## What the first definitions reached',
    '',
    'Kept for comparison; 6000 pulls, seed 1, the default ranges. Onset `five-sd`, `onset_agreement` over three rules, `double_pull` as the',
    'fall before the peak, narrower limits, single samples in `lift_off` and `other_foot`. What was changed and why:',
    '[analysis](analysis.md#where-this-differs-from-the-first-definitions-and-why).',
    '',
    '| what | reached |',
    '| --- | --- |',
    '| onset within 20 ms, good pulls, plates of up to 1 N noise | 82.06 % |',
    '| the same on plates of 2 N; of 5 N | 70.5 %; 42.4 % |',
    '| 95th percentile of the onset error on plates of 0.2; 0.5; 1 N | 315; 289; 34 ms |',
    '| bad pulls that count | 0.62 % |',
    '| two pulls in one that count | 11.7 % |',
    '| good pulls that do not count | 8.26 % |',
    '',
  ].join('\n');
}

function goodRanges(): string {
  const g = goodPull;
  const rows: [string, string][] = [
    ['net force', `${words(g.netForceShare)} body weights`],
    [
      'half time of the rise',
      `fast ${words(g.halfTime.fast)}, medium ${words(g.halfTime.medium)}, slow ${words(g.halfTime.slow)} s`,
    ],
    ['form of the rise', g.forms.join(', ')],
    ['slow climb', `${words(g.slowShare)} of the force, time constant ${words(g.slowTime)} s`],
    ['held', `${words(g.hold)} s`],
    ['fatigue', `${words(g.fatigue)} of the force per second, from ${words(g.fatigueFrom)} s after the onset`],
    ['tremor', `${words(g.tremorAmplitude)} of the force at ${words(g.tremorFrequency)} Hz`],
    ['unsteadiness of the plateau', `${words(g.wanderAmplitude)} of the force at ${words(g.wanderFrequency)} Hz`],
    [
      'breathing (half of peak to peak)',
      `${words(g.breathingAmplitude)} N at ${words(g.breathingFrequency)} Hz, any phase`,
    ],
    ['drift of the sum', `${words(g.drift)} N/s`],
    [
      'tension before the pull',
      'so that breathing, drift and tension stay within 25 N of body weight in the second before',
    ],
    ['right share of standing', words(g.standingShareRight)],
    ['weight moved between the feet', `${words(g.exchangeAmplitude)} N at ${words(g.exchangeFrequency)} Hz`],
  ];
  return [
    '## What a good pull is drawn from',
    '',
    'Each value evenly from its range. Body mass, noise, breathing and drift are those of the specification; net force and rates stay in',
    'the broad bands of published mid-thigh pulls; the rest is the choice of this simulation.',
    '',
    '| part | range |',
    '| --- | --- |',
    ...rows.map(([part, range]) => `| ${part} | ${range} |`),
    '',
  ].join('\n');
}

function faultRanges(): string {
  return [
    '## What the faults are',
    '',
    '| fault | what happens | right verdicts | numbers |',
    '| --- | --- | --- | --- |',
    ...faults.map((fault) => {
      const ranges = Object.entries(fault.ranges).map(([name, range]) => `${name} ${words(range)}`);
      return `| ${fault.title} | ${fault.what} | ${fault.expected.map((v) => v.replace('-', ' ')).join(' or ')} | ${ranges.join('; ')} |`;
    }),
    '',
    'Pulls whose fault is so small that the sway permitted in a good pull can hide it are listed but enter no target.',
    '',
  ].join('\n');
}
