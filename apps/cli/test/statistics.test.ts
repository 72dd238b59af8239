import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exampleData } from '../../../tests/example-lab.ts';
import { folder, sthene } from './at-terminal.ts';

const at = folder();
const file = (name: string, text: string): string => {
  const path = join(at, name);
  writeFileSync(path, text);
  return path;
};

// Weir 2005, J Strength Cond Res 19:231-240, set A; printed typical error 7.6, the digits beyond computed from the data.
const pairs = [
  ['146', '140'],
  ['148', '152'],
  ['170', '152'],
  ['90', '99'],
  ['157', '145'],
  ['156', '153'],
  ['176', '167'],
  ['205', '218'],
];
const wide = `athlete,first,second\n${pairs.map((pair, i) => `P${i},${pair.join(',')}`).join('\n')}\n`;

describe('sthene reliability', () => {
  it('reads a wide table', async () => {
    const { code, out } = await sthene('reliability', file('wide.csv', wide), '--json');
    expect(code).toBe(0);
    const { schema, study, occasions } = JSON.parse(out);
    expect(schema).toBe('sthene.reliability/1');
    expect(occasions).toEqual(['first', 'second']);
    expect(study.error.value).toBeCloseTo(7.556927, 6);
    expect(study.error.interval.low).toBeCloseTo(4.996445, 6);
    expect(study.correlations['2,1'].value.value).toBeCloseTo(0.949975, 6);
    expect(study.detectable['95']).toBeCloseTo(20.946732, 5);
  });

  it('reads the same as a long table, with semicolons and decimal commas', async () => {
    const lines = pairs.flatMap((pair, i) => pair.map((value, j) => `${j + 1};P${i};${value},0`));
    const long = file('long.csv', `\uFEFFday;who;peak\n${lines.join('\n')}\n`);
    const { out } = await sthene(
      'reliability',
      long,
      '--person',
      'who',
      '--occasion',
      'day',
      '--value',
      'peak',
      '--json',
    );
    expect(JSON.parse(out).study.error.value).toBeCloseTo(7.556927, 6);
    const logs = await sthene('reliability', file('wide.csv', wide), '--log', '--json');
    expect(JSON.parse(logs.out).study.cv.value).toBeCloseTo(5.161627, 5);
  });

  it('names who is left out and what all values say', async () => {
    const holed = file('holed.csv', wide.replace('P7,205,218', 'P7,205,'));
    const { out } = await sthene('reliability', holed, '--unit', 'N');
    expect(out).toContain('7 with every value of 8; 15 values');
    expect(out).toMatch(/left out +P7/);
    expect(out).toContain('mixed model, REML');
    expect(out).toContain('provisional');
  });

  it.each([
    ['table-empty', 'a', 'x\n'],
    ['table-not-a-number', 'b', 'who,one,two\nA,3 N,4\n'],
    ['table-uneven', 'c', 'who,one,two\nA,3,4,5\n'],
    ['too-few-values', 'd', 'who,one,two\nA,3,4\n'],
  ])('refuses a bad table with %s', async (code, name, text) => {
    const answer = await sthene('reliability', file(`${name}.csv`, text));
    expect(answer.err).toContain(`[${code}]`);
    expect(answer.code).toBe(3);
    expect(answer.out).toBe('');
  });
});

describe('sthene agreement', () => {
  it('compares two columns', async () => {
    const { out } = await sthene(
      'agreement',
      file('wide.csv', wide),
      '--first',
      'first',
      '--second',
      'second',
      '--json',
    );
    const { schema, study, leftOut } = JSON.parse(out);
    expect([schema, leftOut, study.n]).toEqual(['sthene.agreement/1', 0, 8]);
    expect(study.limits.value.bias.value).toBeCloseTo(-2.75, 10);
    expect(study.limits.value.sd).toBeCloseTo(10.687108, 6);
    const words = await sthene('agreement', file('wide.csv', wide), '--first', '2', '--second', '3');
    expect(words.out).toContain('Passing-Bablok');
    expect(words.out).toContain('fewer than 30 pairs');
  });

  it('says which columns there are', async () => {
    const { code, err } = await sthene('agreement', file('wide.csv', wide), '--first', 'third');
    expect(code).toBe(3);
    expect(err).toContain('Choose one of: athlete, first, second.');
  });
});

describe('sthene change', () => {
  let data: string;
  beforeAll(async () => {
    data = await exampleData();
  });
  afterAll(() => rmSync(data, { recursive: true, force: true }));

  // Hopkins 2004, Sportscience 8:1-7; arithmetic in full precision.
  it('judges two numbers', async () => {
    const numbers = ['--now', '3180', '--reference', '3000', '--error', '105', '--worthwhile', '80'];
    const { out } = await sthene('change', ...numbers, '--json');
    const { change } = JSON.parse(out);
    expect(change.more).toBeCloseTo(0.749665, 6);
    expect(change.less).toBeCloseTo(0.039979, 6);
    expect(change.word).toBe("inside the test's noise");
    expect((await sthene('change', ...numbers)).out).toContain('-111.04 to 471.04');
    const { code, err } = await sthene('change', '--now', '3180');
    expect([code, err]).toEqual([2, expect.stringContaining('[change-incomplete]')]);
  });

  it('judges an athlete of the lab as the station does', async () => {
    const { code, out } = await sthene('change', 'FW10', '--data', data, '--example', '--json');
    expect(code).toBe(0);
    const view = JSON.parse(out);
    expect([view.schema, view.test, view.scale]).toEqual(['sthene.athlete-change/1', 'imtp', 'log']);
    expect(view.changes.map(({ reference }: { reference: string }) => reference)).toEqual([
      'last',
      'mean-of-three',
      'season-start',
      'first',
    ]);
    const words = await sthene('change', 'FW10', '--data', data, '--example', '--against', 'first');
    expect(words.out).toMatch(/word +(probably )?stronger/);
    expect((await sthene('change', 'nobody', '--data', data, '--example')).code).toBe(4);
  });

  it('measures the reliability of the lab from its newest sessions', async () => {
    const { out } = await sthene('reliability', '--data', data, '--example', '--sessions', '3', '--json');
    const { study, people, unit, occasions } = JSON.parse(out);
    expect([people.length, unit, study.scale, occasions.length]).toEqual([12, 'N', 'log', 3]);
    expect(study.cv.value).toBeGreaterThan(1);
    expect(study.cv.value).toBeLessThan(6);
    const unknown = await sthene('reliability', '--data', data, '--example', '--metric', 'nose');
    expect(unknown.err).toContain('[metric-unknown]');
  });

  it('gives the ratios of an athlete’s tests as the station does, in words and as JSON', async () => {
    const { code, out } = await sthene('ratios', 'FW01', '--data', data, '--example', '--json');
    expect(code).toBe(0);
    const view = JSON.parse(out);
    expect([view.schema, view.apart, view.person.code]).toEqual(['sthene.ratios/1', 14, 'FW01']);
    const [index] = view.ratios;
    const [jump, pull] = index.current.components;
    expect(index.current.value).toBeCloseTo(jump.value / pull.value, 12);
    const words = (await sthene('ratios', 'FW01', '--data', data, '--example')).out;
    expect(words.replace(/ +/g, ' ')).toContain(
      `Dynamic strength index ${index.current.value.toFixed(2)} on 2026-03-28`,
    );
    expect(words).toContain('over 4 loads');
    expect(words).toContain('does not diagnose');
    const missing = (await sthene('ratios', 'FW06', '--data', data, '--example', '--on', '2023-12-31')).out;
    expect(missing).toContain('none: no session of Countermovement jump. Test it.');
    expect((await sthene('ratios', 'nobody', '--data', data, '--example')).code).toBe(4);
    expect((await sthene('ratios', 'FW01', '--data', data, '--example', '--on', 'yesterday')).code).toBe(2);
    expect((await sthene('ratios', 'FW01', '--data', data, '--example', '--apart', '1.5')).code).toBe(2);
  });
});
