import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { resultDocument } from '@sthene/contract';
import { defaultJumpMethod, methodReference, metricFactsOf, recordingOfJumps, simulateJump } from '@sthene/core';
import { formatOf } from '@sthene/formats';
import { describe, expect, it } from 'vitest';
import { folder, sthene } from './at-terminal.ts';

const at = folder();
const heights = [0.26, 0.34, 0.3];

/** Three jumps of one kind in our own text form. */
async function jumpsFile(kind: 'countermovement' | 'drop'): Promise<string> {
  const text = formatOf('text');
  if (text?.write === undefined) throw new Error('the text format is not listed');
  const path = join(at, `${kind}.csv`);
  const jumps = heights.map((height, i) => simulateJump({ kind, height, plateNoise: 0.5 }, 10 + i));
  writeFileSync(path, await text.write(recordingOfJumps(jumps)));
  return path;
}

describe('sthene analyze --test', () => {
  it('gives every jump of a file with its metrics and the jump method', async () => {
    const file = await jumpsFile('countermovement');
    const { code, out } = await sthene('analyze', file, '--test', 'countermovement-jump', '--efforts', 'all', '--json');
    expect(code).toBe(0);
    const trials = resultDocument.parse(JSON.parse(out)).recordings[0]?.trials ?? [];
    expect(trials).toHaveLength(3);
    trials.forEach((trial, i) => {
      expect(trial.method).toEqual(methodReference(defaultJumpMethod));
      expect(Object.keys(trial.metrics).sort()).toEqual(
        metricFactsOf('countermovement-jump')
          .map(({ id }) => id)
          .sort(),
      );
      const height = trial.metrics.jump_height;
      expect(Math.abs((height && 'value' in height ? height.value : 0) - (heights[i] ?? 0))).toBeLessThan(0.01);
      expect(trial.jump?.kind).toBe('countermovement');
    });
  });

  it('says a jump in words, and takes another rule of take-off', async () => {
    const file = await jumpsFile('countermovement');
    const { out } = await sthene('analyze', file, '--test', 'countermovement-jump', '--method', 'jumps-20');
    expect(out).toContain('Jump height');
    expect(out).toContain('(fixed-20, under 20.00)');
    const wrong = await sthene('analyze', file, '--test', 'countermovement-jump', '--method', 'five-sd');
    expect(wrong.code).not.toBe(0);
    expect(wrong.err).toContain('Jump methods: jumps, jumps-10, jumps-20, jumps-30');
  });

  it('holds a drop against the box', async () => {
    const file = await jumpsFile('drop');
    const check = async (box: string) => {
      const { out } = await sthene('analyze', file, '--test', 'drop-jump', '--box-height', box, '--json');
      return resultDocument.parse(JSON.parse(out)).recordings[0]?.trials[0]?.checks.drop_from_box?.status;
    };
    expect(await check('30')).toBe('pass');
    expect(await check('45')).toBe('warn');
  });
});
