import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { analyse, defaultMethod, type Forces, jumpMethodRegistry, protocolRegistry } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { columns, present } from './files.ts';

/** Forces of one or two plates. */
function forcesFrom(sampleRate: number, left: Float64Array, right?: Float64Array): Forces {
  const total = right === undefined ? left : left.map((value, i) => value + (right[i] as number));
  const sides = right === undefined ? {} : { left, right };
  const plates = [{ name: 'plates', side: 'none' as const, force: total }];
  return { sampleRate, sampleCount: total.length, unit: 'N', total, ...sides, plates, gaps: { filled: [], open: [] } };
}

const trialsOf = (forces: Forces, test: string, jumps: string) => {
  const protocol = protocolRegistry.get(test);
  const jumpMethod = jumpMethodRegistry.get(jumps)?.method;
  if (protocol === undefined || jumpMethod === undefined) throw new Error('no such test or method');
  return analyse({ forces, protocol, method: defaultMethod, jumpMethod, gravity: 9.80665, efforts: 'all' }).trials;
};

// SOURCE.md: flights with the sum below 20 N, their starts stated to 0.01 s and their lengths to 0.001 s.
const files = [
  { name: 'two-plate-jumps/BFR003_squat_jump.csv', starts: [2.4, 5.92, 9.68], lasts: [0.29, 0.309, 0.304] },
  { name: 'two-plate-jumps/BFR010_squat_jump.csv', starts: [1.93, 4.12, 6.23], lasts: [0.311, 0.317, 0.327] },
  { name: 'two-plate-jumps/BFR011_squat_jump.csv', starts: [3.56, 7.36, 11.14], lasts: [0.246, 0.382, 0.381] },
];

describe.each(files)('$name', ({ name, starts, lasts }) => {
  const there = present(name);

  it.skipIf(!there).each(['squat-jump', 'countermovement-jump'])('is split into three jumps as %s', (test) => {
    const file = columns(name, 'time');
    const right = file.ground_force1_vy as Float64Array;
    const trials = trialsOf(forcesFrom(1000, file.ground_force2_vy as Float64Array, right), test, 'jumps-20');
    expect(trials).toHaveLength(3);
    trials.forEach(({ jump, metrics }, i) => {
      expect(Math.abs((jump?.takeOff ?? 0) / 1000 - (starts[i] ?? 0))).toBeLessThan(0.0075);
      const flight = metrics.flight_time;
      const time = flight && 'value' in flight ? flight.value : 0;
      expect(Math.abs(time - (lasts[i] ?? 0))).toBeLessThan(0.0025);
    });
  });

  it.skipIf(!there)('has the same flights, to two samples, by five SD of the force in flight', () => {
    const file = columns(name, 'time');
    const forces = forcesFrom(1000, file.ground_force2_vy as Float64Array, file.ground_force1_vy as Float64Array);
    const fixed = trialsOf(forces, 'squat-jump', 'jumps-20');
    trialsOf(forces, 'squat-jump', 'jumps').forEach(({ jump }, i) => {
      expect(Math.abs((jump?.takeOff ?? 0) - (fixed[i]?.jump?.takeOff ?? 0))).toBeLessThanOrEqual(2);
      expect(Math.abs((jump?.touchdown ?? 0) - (fixed[i]?.jump?.touchdown ?? 0))).toBeLessThanOrEqual(2);
    });
  });
});

// SOURCE.md: stances of about 691 N and 772 N, landing peaks of 4697 N and 4232 N; step on, jump once, step off.
describe.each([
  { name: 'vertical-jumps/jump1.txt', stance: 691, peak: 4697 },
  { name: 'vertical-jumps/jump2.txt', stance: 772, peak: 4232 },
])('$name', ({ name, stance, peak }) => {
  const there = present(name);

  it.skipIf(!there)('is one jump, not three: stepping on and off are none', () => {
    const text = readFileSync(fileURLToPath(new URL(`../../../../shared/data/${name}`, import.meta.url)), 'utf8');
    const rows = text
      .split(/\r?\n/)
      .slice(1)
      .filter((line) => line !== '');
    const force = Float64Array.from(rows, (line) => Number(line.split('\t')[1]));
    const trials = trialsOf(forcesFrom(450, force), 'countermovement-jump', 'jumps');
    expect(trials).toHaveLength(1);
    const [trial] = trials;
    const number = (id: string) => {
      const one = trial?.metrics[id];
      return one && 'value' in one ? one.value : Number.NaN;
    };
    expect(Math.abs(number('system_weight') - stance)).toBeLessThan(3);
    expect(Math.abs(number('landing_peak_force') - peak)).toBeLessThan(1);
    // One person, one jump: both ways to its height agree within 5 cm.
    expect(Math.abs(number('jump_height') - number('jump_height_flight_time'))).toBeLessThan(0.05);
    expect(number('jump_height')).toBeGreaterThan(0.3);
  });
});

describe('vertical-jumps/GRFZjump.txt', () => {
  const name = 'vertical-jumps/GRFZjump.txt';
  const there = present(name);

  it.skipIf(!there)('has a flight but no quiet second: the height from the flight stands alone', () => {
    const text = readFileSync(fileURLToPath(new URL(`../../../../shared/data/${name}`, import.meta.url)), 'utf8');
    const force = Float64Array.from(
      text.split(/\r?\n/).filter((line) => line !== ''),
      Number,
    );
    const [trial, ...more] = trialsOf(forcesFrom(600, force), 'countermovement-jump', 'jumps');
    expect(more).toEqual([]);
    expect(trial?.metrics.jump_height).toMatchObject({ reason: 'no-quiet-window' });
    expect(trial?.metrics.jump_height_flight_time).toHaveProperty('value');
    expect(trial?.checks.weighing_window?.status).toBe('fail');
    expect(trial?.verdict).toBe('repeat');
  });
});
