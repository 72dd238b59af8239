import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { analyse, type Forces, type TrialResult } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { defaultMethod } from './core.ts';
import { jumpConfig, jumpTest } from './jump-acts.ts';
import { Stage } from './stage.ts';

/** Recordings made by others; their origin and facts stand in SOURCE.md beside them. */
const data = resolve(import.meta.dirname, '../../../../../shared/data');
const there = existsSync(join(data, 'two-plate-jumps')) && existsSync(join(data, 'vertical-jumps'));
if (!there) console.warn('Skipped: the recordings made by others are not at ../shared/data.');

interface Recorded {
  readonly file: string;
  readonly test: string;
  readonly rate: number;
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** Samples of quiet standing in it, which whoever made it does while they are weighed. */
  readonly stand: readonly [number, number];
  /** Whoever made it stands already at its beginning; else it is played from the end of the stand. */
  readonly begins: number;
}

const rows = (file: string): string[] =>
  readFileSync(join(data, file), 'utf8')
    .split(/\r?\n/)
    .filter((line) => line !== '');

function twoPlates(file: string): Recorded {
  const lines = rows(file);
  const head = lines.findIndex((line) => line.includes('ground_force1_vy'));
  const names = (lines[head] ?? '').split(',');
  const column = (name: string) =>
    Float64Array.from(lines.slice(head + 1), (line) => Number(line.split(',')[names.indexOf(name)]));
  // Right and left as SOURCE.md says.
  const [left, right] = [column('ground_force2_vy'), column('ground_force1_vy')];
  return { file, test: 'squat-jump', rate: 1000, left, right, stand: [0, 500], begins: 0 };
}

function onePlate(file: string, from: number, to: number): Recorded {
  const force = Float64Array.from(rows(file).slice(1), (line) => Number(line.split('\t')[1]));
  const half = force.map((value) => value / 2);
  const stand = [Math.round(450 * from), Math.round(450 * to)] as const;
  return { file, test: 'countermovement-jump', rate: 450, left: half, right: half, stand, begins: stand[1] };
}

/** Every jump of a file, as an import finds them. */
function fromFile({ left, right, rate, test }: Recorded): readonly TrialResult[] {
  const total = left.map((value, i) => value + (right[i] as number));
  const plates = [{ name: 'plates', side: 'none' as const, force: total }];
  const gaps = { filled: [], open: [] };
  const forces: Forces = { sampleRate: rate, sampleCount: total.length, unit: 'N', total, left, right, plates, gaps };
  const protocol = jumpTest(test);
  return analyse({ forces, protocol, method: defaultMethod, gravity: 9.80665, efforts: 'all' }).trials;
}

/**
 * The same recording under a live engine: whoever made it is called and weighed in their own quiet stance, played forwards and backwards,
 * and then does what was recorded, sample by sample. Nobody cues; after each jump the operator goes on at once.
 */
function live({ left, right, rate, stand, begins, test }: Recorded): { stage: Stage; from: number } {
  const config = jumpConfig(test);
  const running = { ...config.running!, rest: { afterSubmaximal: 0, minimum: 0, maximum: 600 } };
  const stage = new Stage({ ...config, running }, rate, Math.round(rate / 50));
  stage.wait(1.5);
  const next = { person: 'p-recorded', clearances: [], minor: false, warmUpDone: 2, maximalTrials: 6 };
  stage.order({ order: 'next-athlete', next });
  if (!stage.untilPhase('stand-still', 6)) throw new Error('was not zeroed');
  const [low, high] = stand;
  const back = (force: Float64Array): Float64Array => {
    const there = force.slice(low, high);
    return Float64Array.from([...there.slice().reverse(), ...there]);
  };
  for (let i = 0; i < 12 && stage.phase !== 'set-up'; i++) stage.play(back(left), back(right));
  expect(stage.phase).toBe('set-up');
  stage.order({ order: 'advance' });
  for (let i = 0; i < 2; i++) stage.play(back(left), back(right));
  const from = stage.next - begins;
  const step = Math.round(rate / 50);
  for (let at = begins; at < left.length; at += step) {
    stage.play(left.slice(at, at + step), right.slice(at, at + step));
    for (const phase of ['verdict', 'rest', 'set-up'] as const) {
      if (stage.phase === phase) stage.order({ order: 'advance' });
    }
  }
  // The last jump closes in a stance that the file may cut off.
  if (begins === 0) for (let i = 0; i < 4; i++) stage.play(back(left), back(right));
  return { stage, from };
}

describe.skipIf(!there)('recordings made by others, run live', () => {
  const files = there
    ? [
        twoPlates('two-plate-jumps/BFR003_squat_jump.csv'),
        twoPlates('two-plate-jumps/BFR010_squat_jump.csv'),
        twoPlates('two-plate-jumps/BFR011_squat_jump.csv'),
        onePlate('vertical-jumps/jump1.txt', 3.5, 4.1),
        onePlate('vertical-jumps/jump2.txt', 2.8, 3.6),
      ]
    : [];
  it.each(files.map((one) => [one.file, one] as const))('%s gives the jumps that its file gives', (_, recorded) => {
    const wanted = fromFile(recorded).flatMap(({ jump }) => (jump === undefined ? [] : [jump]));
    const { stage, from } = live(recorded);
    const got = stage.closed.map(({ span, result }) => ({
      takeOff: span.start - from + (result.jump?.takeOff ?? Number.NaN),
      touchdown: span.start - from + (result.jump?.touchdown ?? Number.NaN),
    }));
    expect(wanted.length).toBeGreaterThan(0);
    expect(got).toEqual(wanted.map(({ takeOff, touchdown }) => ({ takeOff, touchdown })));
    // Each is measured from a span of its own: the flight is the same to the last digit.
    const flights = fromFile(recorded).map(({ metrics }) => metrics.flight_time);
    expect(stage.closed.map(({ result }) => result.metrics.flight_time)).toEqual(
      flights.map((flight) => expect.objectContaining({ value: (flight as { value: number }).value })),
    );
  });
});
