import type { Curve } from '@sthene/contract';
import {
  analyse,
  checkFacts,
  defaultMethod,
  forcesOf,
  proposeForces,
  protocolRegistry,
  recordingOfJumps,
  simulateJump,
  standardGravity,
} from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { words } from '../../words/index.ts';
import { trialEvidence } from './evidence.ts';
import { findingWords } from './findings.ts';
import { groupsOf, headlineOf } from './groups.ts';
import { jumpSpan } from './jump-evidence.ts';
import { motionLines } from './motion-lines.ts';
import type { Result } from './numbers.ts';
import { stopsOf } from './stops.ts';

/** A simulated jump, judged; what the screen draws is compared with what the analysis returned. */
function judged(kind: 'countermovement' | 'drop', test: string) {
  const recording = recordingOfJumps([simulateJump({ kind }, 3)]);
  const { selection } = proposeForces(recording);
  const forces = selection && forcesOf(recording, selection);
  const protocol = protocolRegistry.get(test);
  if (!forces?.ok || !protocol) throw new Error('the simulated jump could not be prepared');
  const { total, sampleRate, sampleCount, unit } = forces.value;
  const [trial] = analyse({
    ...{ forces: forces.value, protocol, method: defaultMethod, gravity: standardGravity, efforts: 'largest' },
  }).trials;
  const result = JSON.parse(JSON.stringify(trial)) as Result;
  const series = [{ name: 'total', of: 'total' as const }];
  const gaps = { open: [], filled: [] };
  const curve: Curve = { ...{ sampleRate, samples: sampleCount, unit, notices: [], series, gaps }, values: [total] };
  if (result.jump === undefined) throw new Error('no jump was found');
  return { result, jump: result.jump, curve };
}

const measuredOf = ({ metrics }: Result, id: string): number => {
  const found = metrics[id];
  return found !== undefined && 'value' in found ? found.value : Number.NaN;
};

describe('a countermovement jump on the Trial screen', () => {
  const { result, jump, curve } = judged('countermovement', 'countermovement-jump');

  it('shows the quiet second, onset, phases, take-off and touchdown as the analysis has them', () => {
    const { bands, verticals, levels, points } = trialEvidence(result, 'N', false);
    expect(jump.weighing.ok && bands[0]).toMatchObject(
      jump.weighing.ok ? { start: jump.weighing.value.start, end: jump.weighing.value.end } : {},
    );
    expect(jump.weighing.ok && levels[0]?.force).toBe(jump.weighing.ok && jump.weighing.value.mean);
    const at = verticals.map((line) => line.at);
    const phases = jump.phases.filter(({ id }) => id === 'braking' || id === 'propulsion').map(({ start }) => start);
    expect(phases).toHaveLength(2);
    for (const instant of [result.onset.ok && result.onset.value.index, ...phases, jump.takeOff, jump.touchdown])
      expect(at).toContain(instant);
    expect(points[0]).toMatchObject({ at: jump.peakForce?.index, force: jump.peakForce?.value });
  });

  it('says of a check that failed what was found, not what should have been', () => {
    const failed = Object.entries(result.checks).map(([id, check]) => ({
      id,
      result: { ...check, status: 'fail' as const, value: 1, limit: 0 },
      title: checkFacts.get(id)?.title ?? '',
    }));
    expect(failed.length).toBeGreaterThan(8);
    for (const row of failed) {
      const finding = checkFacts.get(row.id)?.finding;
      if (finding !== undefined && !(row.id in words.findings))
        expect(findingWords(row as never, result)).toBe(finding);
      expect(findingWords(row as never, result)).not.toBe(row.title);
    }
  });

  it('can be gone through from the quiet second to the end of the landing', () => {
    const stops = stopsOf(result, curve);
    expect(stops.map(({ at }) => at)).toEqual([...stops.map(({ at }) => at)].sort((a, b) => a - b));
    expect(stops.find(({ name }) => name === 'take-off')?.at).toBe(jump.takeOff);
    expect(jumpSpan(result, jump)).toEqual({
      start: result.onset.ok ? result.onset.value.index : -1,
      end: jump.endOfLanding,
    });
  });

  it('draws the motion behind the values', () => {
    const lines = motionLines(result, curve);
    const atTakeOff = lines?.power.at(-1)?.[1] as number;
    expect(atTakeOff).toBeCloseTo((curve.values[0]?.[jump.takeOff] ?? 0) * measuredOf(result, 'take_off_velocity'), 6);
    const powers = lines?.power.map(([, watts]) => watts) ?? [];
    expect(Math.max(...powers) / measuredOf(result, 'propulsion_peak_power')).toBeGreaterThan(0.99);
    expect(Math.max(...powers)).toBeLessThanOrEqual(measuredOf(result, 'propulsion_peak_power') + 1e-9);
    const lowest = Math.min(...(lines?.position.map(([, metres]) => metres) ?? []));
    expect(-lowest).toBeLessThanOrEqual(measuredOf(result, 'countermovement_depth') + 1e-9);
    expect(-lowest / measuredOf(result, 'countermovement_depth')).toBeGreaterThan(0.99);
    expect(lines?.takeOff).toBeCloseTo(measuredOf(result, 'time_to_take_off'), 9);
  });
});

it.each([
  ['countermovement', 'countermovement-jump'],
  ['drop', 'drop-jump'],
] as const)('shows every value of a %s jump exactly once, each in a group', (kind, test) => {
  const { result } = judged(kind, test);
  const shown = [...headlineOf(result), ...groupsOf(result).flatMap(({ metrics }) => metrics)];
  expect([...shown].sort()).toEqual(Object.keys(result.metrics).sort());
  expect(groupsOf(result).find(({ id }) => id === 'other')?.metrics ?? []).toEqual([]);
});
