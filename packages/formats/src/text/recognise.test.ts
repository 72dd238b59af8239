import { describe, expect, it } from 'vitest';
import { bytesOf } from '../byte-source.ts';
import { describeText } from './describe.ts';
import type { TextDescription } from './description.ts';
import type { TextOptions } from './options.ts';

// What people mean by these small files is plain to see in them; no outside reference is needed.
const utf8 = (text: string) => new TextEncoder().encode(text);

async function look(text: string | Uint8Array, options: TextOptions = {}): Promise<TextDescription> {
  const result = await describeText(bytesOf(typeof text === 'string' ? utf8(text) : text), options);
  if (!result.ok) throw new Error(`${result.error.code}: ${result.error.message}`);
  return result.description;
}

const rows = (count: number, row: (n: number) => string, lineBreak = '\n') =>
  Array.from({ length: count }, (_, n) => row(n)).join(lineBreak) + lineBreak;

const table = (delimiter: string, decimal: string, header = true) =>
  (header ? `time_s${delimiter}left_n${delimiter}right_n\n` : '') +
  rows(50, (n) => [n / 1000, 400 + n / 8, 390 - n / 8].map((v) => v.toFixed(3).replace('.', decimal)).join(delimiter));

describe('recognising delimiter and decimal sign', () => {
  it.each([
    [',', '.'],
    [';', '.'],
    [';', ','],
    ['\t', '.'],
    ['\t', ','],
    [' ', '.'],
    [' ', ','],
    ['|', '.'],
  ])('delimiter "%s" with decimal "%s"', async (delimiter, decimal) => {
    for (const header of [true, false]) {
      const found = await look(table(delimiter, decimal, header));
      expect([found.delimiter, found.decimal, found.columns.length]).toEqual([delimiter, decimal, 3]);
      expect(found.time?.column).toBe(1);
      expect(found.rate?.hertz).toBe(1000);
      expect(found.headerRow).toBe(header ? 1 : undefined);
    }
  });

  it('runs of blanks, with blanks before the first column', async () => {
    const found = await look(rows(40, (n) => `   ${(n / 100).toFixed(2)}    ${(700 + n).toFixed(1)}`));
    expect([found.delimiter, found.columns.length, found.rate?.hertz]).toEqual([' ', 2, 100]);
  });

  it('commas with blanks behind them are commas', async () => {
    const found = await look(`t [s], Fz [N]\n${rows(20, (n) => `${n / 100}, ${500 + n}`)}`);
    expect([found.delimiter, found.columns.map((c) => c.name)]).toEqual([',', ['t', 'Fz']]);
  });

  it('one column with a decimal comma is not two columns', async () => {
    const one = await look(`Kraft (N)\n${rows(30, (n) => `63${n % 10},${String((n * 7) % 100).padStart(2, '0')}`)}`);
    expect([one.delimiter, one.decimal, one.columns.length]).toEqual(['', ',', 1]);
    const bare = await look(rows(30, (n) => `63${n % 10},${String((n * 7) % 100).padStart(2, '0')}`));
    expect([bare.delimiter, bare.decimal, bare.columns.length]).toEqual(['', ',', 1]);
    const two = await look(rows(30, (n) => `${n},${600 + n}`));
    expect([two.delimiter, two.columns.length]).toEqual([',', 2]);
  });

  it('refuses a comma that is both', async () => {
    const text = `time,force\n${rows(20, (n) => `0,${String(n).padStart(3, '0')},512,${10 + n}`)}`;
    const result = await describeText(bytesOf(utf8(text)));
    expect(!result.ok && result.error).toMatchObject({ code: 'text-decimal-is-delimiter', at: { row: 2 } });
  });

  it('quoted cells hold delimiters, quotes and line breaks', async () => {
    const found = await look(
      `"time [s]","Force, ""left""\nplate [N]"\n${rows(10, (n) => `"${n / 100}","${n + 0.5}"`)}`,
    );
    expect(found.columns.map((c) => [c.name, c.unit])).toEqual([
      ['time', 's'],
      ['Force, "left"\nplate', 'N'],
    ]);
    expect(found.dataRow).toBe(2);
  });

  it.each(['\n', '\r\n', '\r'])('line break %j', async (lineBreak) => {
    const found = await look(table(',', '.').replaceAll('\n', lineBreak));
    expect([found.columns.length, found.headerRow, found.dataRow, found.rowsAbout]).toEqual([3, 1, 2, 50]);
  });
});

describe('recognising encodings', () => {
  const text = `Prüfstand: Fernwater\ntime_s;Kräfte links [N]\n${rows(30, (n) => `${n / 100};${n},5`.replace('.', ','))}`;
  const wide = (little: boolean, mark: boolean) => {
    const units = [...(mark ? [0xfeff] : []), ...Array.from(text, (c) => c.charCodeAt(0))];
    return Uint8Array.from(units.flatMap((unit) => (little ? [unit & 255, unit >> 8] : [unit >> 8, unit & 255])));
  };
  it.each([
    ['utf-8', utf8(text), {}],
    ['utf-8', utf8(`\ufeff${text}`), {}],
    ['utf-16le', wide(true, true), {}],
    ['utf-16be', wide(false, true), {}],
    ['utf-16le', wide(true, false), { encoding: 'utf-16le' }],
    ['latin-1', Uint8Array.from(text, (c) => c.charCodeAt(0)), {}],
  ] as const)('%s', async (encoding, bytes, options) => {
    const found = await look(bytes, options);
    expect(found.encoding).toBe(encoding);
    expect(found.notices.map((n) => n.code)).toEqual(encoding === 'latin-1' ? ['text-encoding-latin-1'] : []);
    expect(found.facts).toEqual({ Prüfstand: 'Fernwater' });
    expect(found.columns[1]).toMatchObject({ name: 'Kräfte links', unit: 'N' });
    expect([found.rate?.hertz, found.rowsAbout]).toEqual([100, 30]);
  });
});

describe('recognising headings', () => {
  it('a row of units below the names', async () => {
    const found = await look(`Time\tLeft\tRight\n[ms]\t[kN]\tlbf\n${rows(10, (n) => `${n * 2}\t0.4\t90`)}`);
    expect([found.headerRow, found.unitsRow, found.dataRow]).toEqual([1, 2, 3]);
    expect(found.columns.map((c) => c.unit)).toEqual(['ms', 'kN', '[lbf_av]']);
    expect(found.rate?.hertz).toBe(500);
  });

  it.each([
    ['Fz [N]', 'Fz', 'N'],
    ['Force (kN)', 'Force', 'kN'],
    ['left_n', 'left', 'N'],
    ['Fz/N', 'Fz', 'N'],
    ['Load, kgf', 'Load', 'kgf'],
    ['Bridge [mV]', 'Bridge', 'mV'],
    ['Force [[lbf_av]]', 'Force', '[lbf_av]'],
    ['Fz []', 'Fz', ''],
    ['ground_force1_vy', 'ground_force1_vy', ''],
    ['Fz [body parts]', 'Fz [body parts]', ''],
  ])('the heading %s', async (header, name, unit) => {
    const quoted = header.includes(',') ? `"${header}"` : header;
    const found = await look(`time_s,${quoted}\n${rows(10, (n) => `${n / 100},${n}`)}`);
    expect([found.columns[1]!.name, found.columns[1]!.unit]).toEqual([name, unit]);
    expect(found.notices.map((n) => n.code)).toEqual(header.includes('parts') ? ['text-unit-unknown'] : []);
  });

  it('repeated and missing names become unique', async () => {
    const found = await look(`t,F,F,,F\n${rows(10, (n) => `${n / 100},1,2,3,4`)}`);
    expect(found.columns.map((c) => c.name)).toEqual(['t', 'F', 'F (2)', 'column 4', 'F (3)']);
  });

  it('thousands of preamble lines are kept as facts', async () => {
    const preamble = rows(9000, (n) => `key ${n}: value ${n}`);
    const found = await look(`${preamble}time_s,left_n\n${rows(20, (n) => `${n / 1000},${n}`)}`);
    expect([found.preambleRows, found.headerRow, found.dataRow]).toEqual([9000, 9001, 9002]);
    expect(Object.keys(found.facts)).toHaveLength(9000);
    expect(found.facts['key 8999']).toBe('value 8999');
  });

  it('a sample rate in the preamble counts, and facts cannot poison objects', async () => {
    const found = await look(`__proto__: evil\nSampling frequency: 2 kHz\n\nForce [N]\n${rows(20, (n) => `${n}.5`)}`);
    expect(found.rate).toEqual({ hertz: 2000, from: 'preamble' });
    expect(Object.keys(found.facts)).toEqual(['__proto__', 'Sampling frequency']);
    expect(({} as Record<string, unknown>).evil).toBeUndefined();
  });

  it('header and time can be named', async () => {
    const text = `1,2,3\n10,20,30\n${rows(10, (n) => `${n},${n * 2},5`)}`;
    expect((await look(text, { header: 2 })).columns.map((c) => c.name)).toEqual(['10', '20', '30']);
    expect((await look(text, { header: 'none' })).dataRow).toBe(1);
    expect((await look(text, { header: 2, time: 2 })).time?.column).toBe(2);
    expect((await look(text, { header: 2, time: '20' })).time?.column).toBe(2);
    expect((await look(text, { header: 2, time: 'none' })).time).toBeUndefined();
    const wrong = await describeText(bytesOf(utf8(text)), { time: 'Zeit' });
    expect(!wrong.ok && wrong.error.code).toBe('text-column-unknown');
  });
});

describe('recognising time and layout', () => {
  it.each([
    ['Time (ms)', 1, 1000],
    ['time_us', 500, 2000],
    ['Elapsed [s]', 0.005, 200],
    ['Time', 1, 1000],
    ['t [min]', 1 / 6000, 100],
  ])('the time column %s in steps of %d', async (name, step, rate) => {
    const found = await look(`${name},left_n\n${rows(30, (n) => `${(n * step).toPrecision(12)},${n}`)}`);
    expect(found.rate).toEqual({ hertz: rate, from: 'time-column' });
  });

  it('clock times', async () => {
    const found = await look(`clock;left_n\n${rows(30, (n) => `23:59:59.${String(n * 10).padStart(3, '0')};${n}`)}`);
    expect(found.columns[0]).toMatchObject({ role: 'time', clock: true });
    expect(found.rate?.hertz).toBe(100);
  });

  it('a counter is no time: a rate has to be given', async () => {
    const text = `Frame,left_n\n${rows(30, (n) => `${n + 1},${n}.5`)}`;
    const found = await look(text);
    expect([found.columns[0]!.role, found.rateMissing]).toEqual(['counter', true]);
    expect((await look(text, { rate: 1200 })).rate).toEqual({ hertz: 1200, from: 'given' });
  });

  it.each([
    ['rep1,rep2,rep3', 'trials'],
    ['Trial 1,Trial 2,Trial 3', 'trials'],
    ['pull_01,pull_02,pull_03', 'trials'],
    ['1,2,3', 'trials'],
    ['Fz1,Fz2,Fz3', 'channels'],
    ['left,right,total', 'channels'],
    ['trial 1 [N],trial 2 [V],trial 3 [N]', 'channels'],
  ])('columns %s are %s', async (header, layout) => {
    const text = `${header}\n${rows(30, (n) => `${(n * 37) % 101}.5,${n}.25,7`)}`;
    expect((await look(text, { rate: 100 })).layout).toBe(layout);
    for (const told of ['trials', 'channels'] as const)
      expect((await look(text, { rate: 100, layout: told })).layout).toBe(told);
  });

  it('a column of words is left aside, with a word about it', async () => {
    const found = await look(`time_s,phase,left_n\n${rows(30, (n) => `${n / 100},standing,${n}`)}`);
    expect(found.columns.map((c) => c.role)).toEqual(['time', 'text', 'channel']);
    expect(found.notices.map((n) => n.code)).toEqual(['text-column-ignored']);
  });
});
