import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CurveHead, decodeCurve, encodeCurve } from '../src/index.ts';

const head = (samples: number, names: readonly string[]): CurveHead => ({
  sampleRate: 1000,
  samples,
  unit: 'N',
  notices: [{ code: 'gap', message: 'Größe' }],
  series: names.map((name) => ({ name, of: 'plate' })),
  gaps: { filled: [[1, 2]], open: [] },
});

describe('a curve on the wire', () => {
  it('arrives bit for bit, whatever its names and values', () => {
    fc.assert(
      fc.property(
        fc.array(fc.string(), { maxLength: 4 }),
        fc.integer({ min: 0, max: 40 }),
        fc.infiniteStream(fc.double()),
        (names, samples, numbers) => {
          const values = names.map(() => Float64Array.from({ length: samples }, () => numbers.next().value as number));
          const bytes = encodeCurve(head(samples, names), values);
          const back = decodeCurve(bytes.buffer as ArrayBuffer);
          expect(back.series.map((one) => one.name)).toEqual(names);
          expect(
            back.values.map((one) => Array.from(one, (value) => (Object.is(value, -0) ? '-0' : String(value)))),
          ).toEqual(values.map((one) => Array.from(one, (value) => (Object.is(value, -0) ? '-0' : String(value)))));
          expect(back.notices).toEqual([{ code: 'gap', message: 'Größe' }]);
          expect(back.gaps).toEqual({ filled: [[1, 2]], open: [] });
        },
      ),
    );
  });

  it('refuses a truncated answer and series of another length', () => {
    const bytes = encodeCurve(head(3, ['a']), [Float64Array.of(1, 2, 3)]);
    expect(() => decodeCurve(bytes.buffer.slice(0, bytes.length - 8) as ArrayBuffer)).toThrow(RangeError);
    expect(() => encodeCurve(head(3, ['a']), [Float64Array.of(1, 2)])).toThrow(RangeError);
  });
});
