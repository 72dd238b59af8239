import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { batteryReport, csvOf, figuresOf, htmlOf, pdfOf, tablesOf, xlsxOf } from '../src/index.ts';
import { tested, weighing, weightOfPull } from './battery.ts';
import { textOf } from './documents.ts';
import { frame } from './fernwater.ts';

const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

describe('the page of a battery of tests', () => {
  it('gives the same bytes for the same data, and others for other data', async () => {
    const of = async (input = tested) => sha256(await pdfOf(batteryReport(input, frame), 'A4'));
    expect(await of()).toBe(await of());
    expect(await of({ ...tested, apart: 7 })).not.toBe(await of());
  });

  it('shows each ratio beside both of its sides, with error, interval and the word', () => {
    const said = textOf(batteryReport(tested, frame));
    for (const one of [
      '0.78',
      '0.70\u00a0to\u00a00.86',
      'undecided: its interval contains a limit',
      '1560\u00a0N',
      '2000\u00a0N',
    ])
      expect(said).toContain(one);
    expect(said).toContain('a test was done for the first time');
    expect(said).toContain('no session of Squat jump; 2 sessions of results only');
    expect(said).toContain('0.996 over only 4 loads');
    expect(said).toContain('no diagnosis');
    const german = textOf(batteryReport(tested, { ...frame, language: 'de' }));
    expect(german).toContain('0,70\u00a0bis\u00a00,86');
    expect(german).toContain('keine Diagnose');
  });

  it('goes into a table for machines: bare numbers, words of the program', () => {
    const [, ratios] = tablesOf(batteryReport(tested, { ...frame, language: 'de' }).blocks);
    const csv = csvOf(ratios as NonNullable<typeof ratios>);
    expect(csv).toContain('dynamic_strength_index,,2026-07-15,0.78,0.039,0.7036 0.8564,undecided');
    expect(csv).toContain('dynamic_strength_index.isometric,imtp,2026-07-15,2000,80,,3');
    expect(csv).toContain('eccentric_utilisation_ratio,,,,,,test-missing');
  });

  it('says why there is no line as the screen does, how long the push-off was, and the source', () => {
    const said = textOf(batteryReport(tested, frame));
    expect(said).toContain('37.2\u00a0cm');
    expect(said).toContain('as the plates measured it');
    expect(said).toContain('Samozino et al. 2008');
    const { line: _, ...without } = tested.profile as NonNullable<typeof tested.profile>;
    const of = (profileLack: typeof tested.profileLack, profile: typeof tested.profile = without) =>
      textOf(batteryReport({ ...tested, profile, profileLack }, frame));
    const few = of({ reason: 'too-few-loads', loads: 3, needed: 4, loadMissing: 1 });
    expect(few).toContain('no line: 3 loads, and it takes 4; 1 session has no load written down and stays out');
    expect(few).not.toContain('does not fall');
    expect(of({ reason: 'no-fit', loads: 4, needed: 4, loadMissing: 0 })).toContain(
      'force does not fall with velocity',
    );
    const none = { ...tested, profile: undefined };
    const lack = { reason: 'loads-not-written', loads: 0, needed: 4, loadMissing: 2 } as const;
    expect(textOf(batteryReport({ ...none, profileLack: lack }, frame))).toContain('no load is written down');
    expect(textOf(batteryReport({ ...none, profileLack: { ...lack, reason: 'no-loads' } }, frame))).not.toContain(
      'Force and velocity of loaded jumps',
    );
  });

  it('marks an error that is that of one session’s efforts, and says what it leaves out', () => {
    const said = 'from day to day the error is larger';
    expect(textOf(batteryReport(tested, frame))).not.toContain(said);
    const [first, ...others] = tested.tests;
    if (first === undefined) throw new Error('no test');
    const trials = { ...tested, tests: [{ ...first, errorFrom: 'trials' } as const, ...others] };
    const marked = textOf(batteryReport(trials, frame));
    expect(marked).toContain('±\u202f80\u00a0N\u00a0*');
    expect(marked).toContain(said);
    expect(textOf(batteryReport(trials, { ...frame, language: 'de' }))).toContain(
      'von Tag zu Tag ist der Fehler größer',
    );
  });
});

describe('the page of a battery of somebody under 18', () => {
  const birthDate = '2010-01-20';
  const of = (weight: number, young: boolean, language: 'en' | 'de' = 'en') => {
    const input = weighing(weight);
    return batteryReport(young ? { ...input, person: { ...input.person, birthDate } } : input, { ...frame, language });
  };
  /** Everything that is handed out, in every format. */
  const handedOut = async (weight: number, young: boolean) => {
    const document = of(weight, young);
    return [
      sha256(await pdfOf(document, 'A4')),
      sha256(await xlsxOf(document)),
      htmlOf(document),
      ...tablesOf(document.blocks).map(csvOf),
      ...figuresOf(document.blocks).map(({ svg }) => svg),
    ];
  };

  it('is the same for every body weight, in every format: nothing on it can be solved for mass', async () => {
    const light = await handedOut(480, true);
    expect(await handedOut(610, true)).toEqual(light);
    // The same of a grown-up differs in every one but the table of the tests.
    const [one, other] = [await handedOut(480, false), await handedOut(610, false)];
    expect(one.filter((part, i) => part === other[i])).toHaveLength(1);
  });

  it('leaves out what a grown-up’s page can be solved for: the index with the gross forces, the profile', () => {
    const weight = 610;
    const index = weighing(weight).ratios.at(-1)?.current?.value ?? Number.NaN;
    expect(textOf(of(weight, false))).toContain(index.toFixed(1).replace('-', '\u2212'));
    // Rounded to one decimal as it is printed, the index still tells the weight within 2 N.
    expect(Math.abs(weightOfPull(Number(index.toFixed(1)) / 100) - weight)).toBeLessThan(2);
    for (const language of ['en', 'de'] as const) {
      const said = textOf(of(weight, true, language));
      expect(said).not.toContain(
        index
          .toFixed(1)
          .slice(1)
          .replace('.', language === 'de' ? ',' : '.'),
      );
      for (const { force } of weighing(weight).profile?.points ?? []) expect(said).not.toContain(force.toFixed(0));
      expect(said).not.toMatch(/\b20\u00a0kg/);
      // One sentence says what is left out; nothing else speaks of it.
      expect(said.match(/[Bb]ilateral/g)).toHaveLength(1);
    }
    const said = textOf(of(weight, true));
    expect(said).toContain('The bilateral index of the pull and the force-velocity profile are left out of this page');
    expect(said).toContain('Under 18');
    expect(said).toContain('0.78');
  });

  it('treats somebody of unknown age as the lab says', () => {
    const { birthDate: _, ...person } = tested.person;
    const unknown = { ...weighing(610), person };
    const left = 'are left out of this page';
    expect(textOf(batteryReport(unknown, { ...frame, unknownAge: 'as-minor' }))).toContain(left);
    expect(textOf(batteryReport(unknown, { ...frame, unknownAge: 'as-adult' }))).not.toContain(left);
  });
});
