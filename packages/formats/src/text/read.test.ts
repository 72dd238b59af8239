import { forcesOf } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { shortReads } from '../../test/conformance.ts';
import { bytesOf } from '../byte-source.ts';
import type { TextOptions } from './options.ts';
import { readText } from './read.ts';
import { scanText } from './scan.ts';

const source = (text: string) => bytesOf(new TextEncoder().encode(text));

async function readAll(text: string, options: TextOptions = {}) {
  const result = await readText(source(text), options);
  if (!result.ok) throw new Error(`${result.error.code}: ${result.error.message}`);
  return result.recordings;
}

const read = async (text: string, options: TextOptions = {}) => (await readAll(text, options))[0]!.recording;
const refusal = async (text: string, options: TextOptions = {}) => {
  const result = await readText(source(text), options);
  return result.ok ? undefined : result.error;
};
const codes = (recording: { notices: readonly { code: string }[] }) => recording.notices.map((notice) => notice.code);
const values = (recording: { channels: readonly { raw: ArrayLike<number> }[] }, c = 0) =>
  Array.from(recording.channels[c]!.raw);

const rows = (from: number, to: number, row: (n: number) => string) => {
  let text = '';
  for (let n = from; n < to; n++) text += `${row(n)}\n`;
  return text;
};
const sample = (n: number) => `${(n / 100).toFixed(2)},${n * 3},${n * 5}`;
const header = 'time_s,left_n,right_n\n';

describe('missing values', () => {
  it.each(['', 'NA', 'NaN', 'nan', 'n/a', '-', 'null', '  ', '""'])('a cell "%s" is a gap', async (cell) => {
    const recording = await read(`${header}${rows(0, 5, sample)}0.05,${cell},7\n${rows(6, 12, sample)}`);
    expect(recording.gaps).toEqual([{ start: 5, end: 6 }]);
    expect(values(recording)[5]).toBeNaN();
    expect(values(recording, 1)[5]).toBe(7);
    expect(codes(recording)).toEqual(['text-missing-cells']);
  });

  it('a short row and a row that is too long are told, with their rows', async () => {
    const recording = await read(
      `${header}${rows(0, 5, sample)}0.05,15\n${rows(6, 8, sample)}0.08,24,40,99\n${rows(9, 12, sample)}`,
    );
    expect(recording.gaps).toEqual([{ start: 5, end: 6 }]);
    expect(recording.sampleCount).toBe(12);
    expect(recording.notices.map((n) => n.message).join(' ')).toMatch(/row 7,.*row 10,/);
  });

  it('empty lines are nothing beside a time, and missing samples without one', async () => {
    expect((await read(`${header}${rows(0, 5, sample)}\n\n${rows(5, 12, sample)}\n\n`)).gaps).toEqual([]);
    const single = await read('1.5\n2.5\n\n\n3.5\n4.5\n5.5\n\n\n', { rate: 10 });
    expect([single.sampleCount, single.gaps]).toEqual([7, [{ start: 2, end: 4 }]]);
    const pairs = await read('a;b\n1;2\n3;4\n;\n5;6\n7;9\n;\n;\n', { rate: 10 });
    expect([pairs.sampleCount, pairs.gaps]).toEqual([5, [{ start: 2, end: 3 }]]);
  });

  it('more missing samples than a block holds', async () => {
    const recording = await read(
      `F [N]\n${rows(0, 50, (n) => `${n}.5`)}${'\n'.repeat(10_000)}${rows(0, 50, (n) => `${n}.5`)}`,
      { rate: 100 },
    );
    expect([recording.sampleCount, recording.gaps]).toEqual([10_100, [{ start: 50, end: 10_050 }]]);
  });
});

describe('the time column', () => {
  it('skipped times are gaps on the grid', async () => {
    const recording = await read(`${header}${rows(0, 50, sample)}${rows(53, 60, sample)}${rows(61, 100, sample)}`);
    expect([recording.sampleRate, recording.sampleCount, recording.rateOrigin]).toEqual([
      100,
      100,
      'time-column-snapped',
    ]);
    expect(recording.gaps).toEqual([
      { start: 50, end: 53 },
      { start: 60, end: 61 },
    ]);
    expect(values(recording).map((v, n) => Number.isNaN(v) || v === n * 3)).not.toContain(false);
    expect(recording.notices[0]!.message).toContain('first at row 52');
  });

  it('a repeated time leaves the later row out and says where', async () => {
    const recording = await read(`${header}${rows(0, 50, sample)}${sample(49)}\n${rows(50, 100, sample)}`);
    expect([recording.sampleRate, recording.sampleCount, codes(recording)]).toEqual([100, 100, ['text-time-repeated']]);
    expect(values(recording)).toEqual(Array.from({ length: 100 }, (_, n) => n * 3));
    expect(recording.notices[0]!.message).toContain('row 52');
  });

  it('a time that turns back ends the reading; what came before stays', async () => {
    const recording = await read(`${header}${rows(0, 60, sample)}${rows(0, 30, sample)}`);
    expect([recording.sampleCount, codes(recording)]).toEqual([60, ['text-time-backward']]);
    expect(recording.notices[0]!.message).toMatch(/^Row 62: .* 30 rows were not read\.$/);
  });

  it('a time that leaps absurdly far asks for no memory', async () => {
    const recording = await read(`${header}${rows(0, 60, sample)}1e300,1,2\n${rows(61, 70, sample)}`);
    expect([recording.sampleCount, codes(recording)]).toEqual([60, ['text-time-leap']]);
  });

  it.each([
    [900, 3, 900],
    [990, 3, 990],
    [995, 3, 995],
    [700, 3, 700],
    [450, 3, 450],
    [1000, 3, 1000],
    [128, 4, 128],
    [2400, 4, 2400],
  ])('%d Hz with times rounded to %d digits has no gaps', async (rate, digits, expected) => {
    const recording = await read(`${header}${rows(0, 5000, (n) => `${(n / rate).toFixed(digits)},${n},1`)}`);
    expect([recording.gaps, recording.sampleCount]).toEqual([[], 5000]);
    expect(recording.sampleRate).toBe(expected);
  });

  it('times too coarse to tell rows apart are taken as even', async () => {
    const recording = await read(`${header}${rows(0, 5001, (n) => `${(n / 1000).toFixed(2)},${n},1`)}`);
    expect([recording.sampleRate, recording.sampleCount, recording.gaps]).toEqual([1000, 5001, []]);
    expect(codes(recording)).toEqual(['text-time-coarse']);
  });

  it('times that jitter are taken as even at their mean rate', async () => {
    const jitter = (n: number) => (n % 7 === 3 ? 0.0063 : n % 7 === 4 ? 0.0001 : 0);
    const recording = await read(`${header}${rows(0, 2001, (n) => `${(n / 100 + jitter(n)).toFixed(4)},${n},1`)}`);
    expect([recording.sampleRate, recording.sampleCount, recording.gaps]).toEqual([100, 2001, []]);
    expect(codes(recording)).toEqual(['text-time-uneven']);
  });

  it('a declared rate wins when the times agree within 0.05 %, else the times', async () => {
    const text = `${header}${rows(0, 2001, (n) => `${(n / 1000.2).toFixed(7)},${n},1`)}`;
    expect((await read(text)).sampleRate).toBe(1000);
    expect((await read(text, { rate: 1000.2 })).sampleRate).toBe(1000.2);
    const off = await read(text, { rate: 500 });
    expect([off.sampleRate, codes(off)]).toEqual([1000, ['rate-not-as-declared']]);
  });

  it('times that never rise are refused', async () => {
    const error = await refusal(`time_s,left_n\n${rows(0, 20, (n) => `5,${n}`)}`);
    expect(error).toMatchObject({ code: 'text-time-not-increasing', at: { row: 2, column: 1 } });
    const back = await refusal(`time_s,left_n\n${rows(0, 20, (n) => `${5 - n},${n}`)}`);
    expect(back?.code).toBe('text-time-not-increasing');
  });

  it('a counter makes the grid with a given rate', async () => {
    const text = `Frame,left_n\n${rows(1, 30, (n) => `${n},${n}.5`)}${rows(32, 60, (n) => `${n},${n}.5`)}`;
    expect((await refusal(text))?.code).toBe('text-rate-missing');
    const recording = await read(text, { rate: 1200 });
    expect([recording.sampleRate, recording.rateOrigin, recording.sampleCount]).toEqual([1200, 'given', 59]);
    expect(recording.gaps).toEqual([{ start: 29, end: 31 }]);
  });

  it('clock times over midnight turn back, and say so', async () => {
    const clock = (n: number) => new Date(86_399_000 + n * 10).toISOString().slice(11, 23);
    const recording = await read(`clock;left_n\n${rows(0, 90, (n) => `${clock(n)};${n}`)}`);
    expect([recording.sampleRate, recording.sampleCount]).toEqual([100, 90]);
    const over = await read(`clock;left_n\n${rows(0, 150, (n) => `${clock(n)};${n}`)}`);
    expect([over.sampleCount, codes(over)]).toEqual([100, ['text-time-backward']]);
  });
});

describe('wrong cells and footers', () => {
  it('a wrong cell ends the reading with row, column and content; nothing before is lost', async () => {
    const text = `${header}${rows(0, 5, sample)}0.05,15,2.5V\n${rows(6, 12, sample)}`;
    const recording = await read(text);
    expect([recording.sampleCount, values(recording, 1)]).toEqual([5, [0, 5, 10, 15, 20]]);
    expect(recording.notices).toEqual([
      {
        code: 'text-cell-not-a-number',
        message:
          'Row 7, column 3: "2.5V" is not a number. The 5 rows before it were read. 6 rows of numbers after it were not read.',
      },
    ]);
  });

  it('nothing before a wrong cell is an error', async () => {
    expect(await refusal(`1;2\nx;4\n5;6\n7;8\n9;10\n`, { rate: 10, header: 1 })).toBeUndefined();
    expect(await refusal('time_s,left_n\n0,5x\n', { delimiter: ',' })).toMatchObject({ code: 'text-no-numbers' });
  });

  it('lines of words at the end are facts', async () => {
    const recording = await read(
      `${header}${rows(0, 50, sample)}\nOperator: Kai Example\nMean,72.5,122.5\nEnd of data\n`,
    );
    expect([recording.sampleCount, recording.notices, recording.gaps]).toEqual([50, [], []]);
    expect(recording.facts).toEqual({
      Operator: 'Kai Example',
      'line 54': 'Mean,72.5,122.5',
      'line 55': 'End of data',
    });
  });

  it.each(['0x10', '1e999', 'Infinity', '1 2', '--5', '12:30', '1.2.3', '5e', "'5"])(
    '"%s" is no number',
    async (cell) => {
      const recording = await read(`${header}${rows(0, 5, sample)}0.05,15,${cell}\n${rows(6, 12, sample)}`);
      expect([recording.sampleCount, codes(recording)]).toEqual([5, ['text-cell-not-a-number']]);
    },
  );

  it('quoted numbers are numbers, blanks around numbers do not matter', async () => {
    const recording = await read(`${header}${rows(0, 12, (n) => `"${n / 100}"  , " ${n}" ,\t${n}.5 `)}`);
    expect([recording.sampleCount, values(recording)[11], values(recording, 1)[11], recording.notices]).toEqual([
      12,
      11,
      11.5,
      [],
    ]);
  });

  it('a quote that never closes hides nothing', async () => {
    const recording = await read(`${header}${rows(0, 5, sample)}0.05,"15,25\n${rows(6, 12, sample)}`);
    expect([recording.sampleCount, codes(recording)]).toEqual([5, ['text-cell-not-a-number']]);
  });
});

describe('trials as columns', () => {
  it('shorter trials end where they end', async () => {
    const all = await readAll('trial 1,trial 2,trial 3\n1,9,5\n2.5,8,\n3,NA,\n4,6,\n', { rate: 100 });
    expect(all.map((r) => [r.label, values(r.recording), r.recording.gaps])).toEqual([
      ['trial 1', [1, 2.5, 3, 4], []],
      ['trial 2', [9, 8, Number.NaN, 6], [{ start: 2, end: 3 }]],
      ['trial 3', [5], []],
    ]);
  });
});

describe('units on the whole path to newtons', () => {
  // Factors: kgf and lbf by the definitions of standard gravity (3rd CGPM, 1901) and of the pound (1959).
  it.each([
    ['left [N]', {}, 1],
    ['left [kN]', {}, 1000],
    ['left (mN)', {}, 0.001],
    ['left_kgf', {}, 9.80665],
    ['left [lbf]', {}, 4.4482216152605],
    ['left', { unit: 'kN' }, 1000],
    ['left [N]', { sign: -1 as const }, -1],
  ])('%s with %o', async (name, input, factor) => {
    const recording = await read(`time_s,${name}\n${rows(0, 20, (n) => `${n / 100},${n}.5`)}`);
    expect(values(recording)[3]).toBe(3.5);
    const forces = forcesOf(recording, { inputs: [{ from: { kind: 'channel', index: 0 }, part: 'left', ...input }] });
    expect(forces.ok && forces.value.total[3]).toBeCloseTo(3.5 * factor, 12);
  });

  it('volts need a gain and take an offset', async () => {
    const recording = await read(`time_s,bridge [V]\n${rows(0, 20, (n) => `${n / 100},${n / 10 + 0.25}`)}`);
    const input = { from: { kind: 'channel', index: 0 }, part: 'total' } as const;
    expect(forcesOf(recording, { inputs: [input] }).ok).toBe(false);
    const forces = forcesOf(recording, { inputs: [{ ...input, newtonsPerUnit: 500, zero: 0.25 }] });
    expect(forces.ok && forces.value.total[10]).toBeCloseTo(500, 9);
  });
});

describe('scanning block by block', () => {
  const text = header + rows(0, 30_000, sample);

  it('delivers every row once, in order, whatever the pieces', async () => {
    for (const most of [33, 4096, 1 << 20]) {
      let next = 0;
      let wrong = 0;
      const result = await scanText(shortReads(new TextEncoder().encode(text), most), {}, (block) => {
        expect(block.firstRow).toBe(next);
        for (let i = 0; i < block.rows; i++, next++) {
          if (block.columns[1]![i] !== next * 3 || block.columns[0]![i] !== Number((next / 100).toFixed(2))) wrong++;
        }
      });
      expect([next, wrong]).toEqual([30_000, 0]);
      expect(result.ok && result.summary.grid).toMatchObject({ sampleRate: 100, samples: 30_000, gaps: [] });
      expect(result.ok && result.summary.columns.map((c) => c.name)).toEqual(['time', 'left', 'right']);
    }
  });

  it('ends when the sink has seen enough', async () => {
    let blocks = 0;
    const result = await scanText(source(text), {}, async () => ++blocks < 2);
    expect([result.ok && result.summary.rows, blocks]).toEqual([8192, 2]);
  });

  it('CRLF and CR across pieces make no empty rows', async () => {
    for (const lineBreak of ['\r\n', '\r']) {
      const bytes = new TextEncoder().encode(text.slice(0, 2000).replaceAll('\n', lineBreak));
      const whole = await readText(bytesOf(bytes));
      for (const most of [1, 2, 3, 5]) expect(await readText(shortReads(bytes, most))).toEqual(whole);
      expect(whole.ok && whole.recordings[0]!.recording.gaps).toEqual([]);
    }
  });
});

describe('refusals', () => {
  const zip = Uint8Array.of(0x50, 0x4b, 3, 4, ...new TextEncoder().encode('....[Content_Types].xml'));
  it.each([
    ['text-empty', new Uint8Array(0), {}],
    ['text-empty', new TextEncoder().encode(' \r\n\r\n'), {}],
    ['text-is-archive', zip, {}],
    ['text-is-archive', Uint8Array.of(0x1f, 0x8b, 8, 0, 0, 0), {}],
    ['text-is-archive', Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1), {}],
    ['text-not-text', new Uint8Array(5000), {}],
    ['text-not-text', new TextEncoder().encode('{"a": 1,\n "b": 2}\n'), {}],
    ['text-not-text', new TextEncoder().encode(`[\n${' {"a": 0.5,\n"b": 7},\n'.repeat(9000)}]`), {}],
    ['text-not-text', new TextEncoder().encode('<?xml version="1.0"?>\n<a>1,2</a>'), {}],
    ['text-no-numbers', new TextEncoder().encode('Once there was, as told; a plate.\n'.repeat(300_000)), {}],
    ['text-no-numbers', new TextEncoder().encode('"123,""\n'.repeat(500_000)), {}],
    ['text-no-numbers', new TextEncoder().encode('"'.repeat(300_000)), {}],
    ['text-line-too-long', new TextEncoder().encode('x'.repeat(3_000_000)), {}],
    ['text-too-many-columns', new TextEncoder().encode(`${'1,'.repeat(6000)}2\n`.repeat(3)), {}],
    ['text-rate-missing', new TextEncoder().encode('1.5\n2.5\n3.5\n'), {}],
    ['text-option-invalid', new TextEncoder().encode('1.5\n2.5\n3.5\n'), { rate: -1 }],
    ['text-option-invalid', new TextEncoder().encode('1.5\n2.5\n3.5\n'), { delimiter: 'ab' }],
    ['text-option-invalid', new TextEncoder().encode('1.5\n2.5\n3.5\n'), { rate: 5, units: { '1': 'stones thrown' } }],
    ['text-column-unknown', new TextEncoder().encode('1.5\n2.5\n3.5\n'), { rate: 5, columns: ['left'] }],
  ])('%s', async (code, bytes, options) => {
    // Its own work, whatever else this machine does.
    const started = process.cpuUsage();
    const result = await readText(bytesOf(bytes), options as TextOptions);
    expect(!result.ok && result.error.code).toBe(code);
    expect(!result.ok && result.error.next.length).toBeGreaterThan(10);
    const { user, system } = process.cpuUsage(started);
    expect((user + system) / 1000).toBeLessThan(10_000);
  });

  it('a preamble of two megabytes is a long preamble, and its cut is told', async () => {
    const recording = await read(
      `${'words before the data, as some write them\n'.repeat(50_000)}${header}${rows(0, 9000, sample)}`,
    );
    expect([recording.sampleCount, recording.sampleRate, codes(recording)]).toEqual([9000, 100, ['text-facts-cut']]);
    expect(Object.keys(recording.facts)).toHaveLength(10_000);
  });

  it('a line without end behind good rows keeps the good rows', async () => {
    const recording = await read(`${header}${rows(0, 12, sample)}${'x'.repeat(2_500_000)}`);
    expect([recording.sampleCount, codes(recording)]).toEqual([12, ['text-line-too-long']]);
  });
});
