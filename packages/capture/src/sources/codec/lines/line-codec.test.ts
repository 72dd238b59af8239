import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LineLayout } from '../../description.ts';
import { encoderOf } from '../encode.ts';
import type { Damage, Run } from '../run.ts';
import { lineCodec } from './line-codec.ts';
import { parseNumber } from './parse-number.ts';

const layout: LineLayout = {
  kind: 'lines',
  delimiter: ',',
  comment: '#',
  fields: [
    { role: 'counter', wrapsAt: 65535 },
    { role: 'channel', channel: 'right' },
    { role: 'ignore' },
    { role: 'channel', channel: 'left' },
  ],
};

function read(text: string | Uint8Array, pieces = [Number.POSITIVE_INFINITY], of = layout, startsWhole = true) {
  const bytes = typeof text === 'string' ? new TextEncoder().encode(text) : text;
  const runs: Run[] = [];
  const damage: Damage[] = [];
  const codec = lineCodec(
    of,
    ['left', 'right'],
    { run: (run) => runs.push(run), damage: (one) => damage.push(one) },
    { startsWhole },
  );
  let at = 0;
  for (let i = 0; at < bytes.length; i++) {
    const size = pieces[i % pieces.length]!;
    codec.feed(bytes.slice(at, at + size));
    at += size;
  }
  codec.end();
  return { runs, damage, rows: runs.map(({ counter, values }) => [counter, ...values]) };
}

describe('text lines', () => {
  it('puts fields on their channels, whatever ends the lines', () => {
    for (const end of ['\n', '\r\n', '\r']) {
      const { rows, damage } = read(['7,1.5,x,-2', '# noise', '', ' 8 , +3e2 , , .25'].join(end) + end);
      expect(rows).toEqual([
        [7, -2, 1.5],
        [8, 0.25, 300],
      ]);
      expect(damage).toEqual([]);
    }
  });

  it('leaves out the first piece of a line when it may be the end of one', () => {
    expect(read('45,1,0,2\n46,1,0,2\n', [3], layout, false).rows).toEqual([[46, 2, 1]]);
  });

  it('counts what it cannot read, and goes on', () => {
    const bad = [
      '1,2,3',
      '1,2,3,4,5',
      'a,1,0,2',
      '1,NaN,0,2',
      '1,Infinity,0,2',
      '1.5,1,0,2',
      '-1,1,0,2',
      '1,1e999,0,2',
      '1,0x10,0,2',
      '1,,0,2',
    ];
    const { rows, damage } = read(`${bad.join('\n')}\n9,1,0,2\n`);
    expect(damage).toHaveLength(bad.length);
    expect(damage.every(({ fault, count }) => fault === 'unreadable' && count === 1)).toBe(true);
    expect(rows).toEqual([[9, 2, 1]]);
  });

  it('holds no endless line', () => {
    const { rows, damage } = read(`${'9'.repeat(3_000_000)}\n9,1,0,2\n`, [4096]);
    expect(damage).toEqual([{ fault: 'unreadable', count: 1, samples: 1 }]);
    expect(rows).toHaveLength(1);
  });

  it('reads blanks and decimal commas', () => {
    const blank: LineLayout = { ...layout, delimiter: ' ', decimal: ',' };
    expect(read('  3   1,5 0\t 2,25  \n', [2], blank).rows).toEqual([[3, 2.25, 1.5]]);
  });

  it('gives back what was written, in pieces of any size', () => {
    const number = fc.double({ noNaN: true, noDefaultInfinity: true });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(65535), number, number), { maxLength: 30 }),
        fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 5 }),
        fc.constantFrom('.', ',' as const),
        (rows, pieces, decimal) => {
          const written: LineLayout = { ...layout, delimiter: ';', decimal: decimal as '.' | ',' };
          const encode = encoderOf(written, ['left', 'right']);
          const bytes = Buffer.concat(
            rows.map(([counter, left, right]) => encode({ counter, count: 1, values: Float64Array.of(left, right) })),
          );
          const back = read(bytes, pieces, written);
          expect(back.damage).toEqual([]);
          expect(back.rows).toEqual(rows);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('survives any bytes, and what it says does not depend on the pieces', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), fc.integer({ min: 1, max: 50 }), (bytes, piece) => {
        const whole = read(bytes);
        expect(read(bytes, [piece])).toEqual(whole);
        for (const { values } of whole.runs) expect(values.every(Number.isFinite)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  it('knows a number when it sees one', () => {
    for (const [text, value] of [
      ['1', 1],
      ['-0.5', -0.5],
      ['.5', 0.5],
      ['5.', 5],
      ['+1E-3', 0.001],
    ] as const) {
      expect(parseNumber(text, '.')).toBe(value);
    }
    for (const text of ['', '.', '-', 'e5', '1e', '1_0', '0x1', '1 2', 'NaN', '--1', '1e1234']) {
      expect(parseNumber(text, '.')).toBeUndefined();
    }
    expect(parseNumber('1.5', ',')).toBeUndefined();
    expect(parseNumber('1,5', ',')).toBe(1.5);
  });
});
