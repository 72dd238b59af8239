import { connect } from 'node:net';
import { parseSourceDescription } from '@sthene/capture';
import { describe, expect, test } from 'vitest';
import { codecOf } from '../packages/capture/src/sources/codec/index.ts';
import { benchmarks } from './benchmarks/index.ts';
import { pair } from './live-steps.ts';
import { optionsFrom } from './options.ts';
// @ts-expect-error plain JavaScript, as it runs without tsx when it is measured
import { startWire, wireDescription } from './work/wire.mjs';

describe('steps and their paintings', () => {
  const steps = [
    { at: 1000, up: true },
    { at: 1400, up: false },
    { at: 1900, up: true },
  ];

  test('each step goes with the first painting of its level', () => {
    const painted = [
      { at: 1020, up: true },
      { at: 1450, up: false },
      { at: 1931, up: true },
      { at: 2400, up: false },
    ];
    expect(pair(steps, painted)).toEqual({ latencies: [20, 50, 31], missed: 0 });
  });

  test('a step that was never painted is counted, not measured', () => {
    expect(pair(steps, [{ at: 1020, up: true }])).toEqual({ latencies: [20], missed: 2 });
  });
});

describe('the plates on the wire', () => {
  test('are described as any source, and every frame is read whole and in order', async () => {
    const parsed = parseSourceDescription(wireDescription(2000, 8, 1));
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
    let sent = 0;
    const wire = await startWire(2000, 8, (values: Float64Array, first: number, count: number) => {
      for (let i = 0; i < count; i++) for (let c = 0; c < 8; c++) values[i * 8 + c] = first + i + c / 8;
      sent = first + count;
    });
    const samples: number[][] = [];
    let damaged = 0;
    const codec = codecOf(parsed.description, {
      run: ({ count, values }) => {
        for (let i = 0; i < count; i++) samples.push(Array.from({ length: 8 }, (_, c) => values[i * 8 + c] as number));
      },
      damage: () => damaged++,
    });
    const socket = connect(wire.port, '127.0.0.1').on('data', (bytes) => codec.feed(bytes));
    await expect.poll(() => samples.length, { timeout: 20_000 }).toBeGreaterThan(400);
    socket.destroy();
    wire.stop();
    const [[first = 0] = []] = samples;
    samples.forEach((row, i) => {
      expect(row).toEqual(Array.from({ length: 8 }, (_, c) => first + i + c / 8));
    });
    expect(damaged).toBe(0);
    expect(sent).toBeGreaterThanOrEqual(first + samples.length);
  });
});

describe('options', () => {
  const only = (...args: string[]) => {
    const options = optionsFrom(args, benchmarks);
    return 'problem' in options ? options.problem : options.only.join('');
  };
  test('choose benchmarks by page or by letter; the long day only when asked for', () => {
    expect(only()).toBe('abcdeklmfgpj');
    expect(only('--reports')).toBe('j');
    expect(only('--live')).toBe('fgp');
    expect(only('--soak')).toBe('h');
    expect(only('--archive')).toBe('i');
    expect(only('--only', 'a,h')).toBe('ah');
    expect(only('--only', 'x')).toContain('no benchmark "x"');
    expect(only('--soak', '--hours', 'many')).toContain('--hours');
    expect(only('--archive', '--trials', 'many')).toContain('--trials');
  });
});
