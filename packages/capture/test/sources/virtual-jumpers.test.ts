import { type JumpKind, protocolRegistry, runningRules } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import type { ClosedTrial, TurnPlan } from '../../src/engine/index.ts';
import type { JumpFault, VirtualScript } from '../../src/sources/virtual/script.ts';
import { VirtualRig } from './rig.ts';

const tests: Readonly<Record<JumpKind, string>> = {
  countermovement: 'countermovement-jump',
  squat: 'squat-jump',
  drop: 'drop-jump',
  repeated: 'repeated-hops',
};

const scriptOf = (jumpFaults: readonly JumpFault[] = []): VirtualScript => ({
  people: [{ weight: 720, strength: 1400, breathing: 0.8, jumpHeight: 0.32, jumpFaults }],
});

/** A hands-free turn on virtual plates: two warm-up jumps, then so many maximal ones, until the athlete is done. */
async function turnOf(
  kind: JumpKind,
  jumpFaults: readonly JumpFault[] = [],
  plan: Partial<TurnPlan> = {},
): Promise<VirtualRig> {
  const protocol = protocolRegistry.get(tests[kind])!;
  const running = { ...runningRules(protocol), rest: { afterSubmaximal: 3, minimum: 4, maximum: 600 } };
  const rig = await VirtualRig.open(scriptOf(jumpFaults), 5, { protocol, running, mode: 'hands-free' });
  rig.call('p-wren', { lastBodyWeight: 720, maximalTrials: 2, jumpSetup: { boxHeight: 0.3 }, ...plan });
  rig.order({ order: 'arm' });
  rig.must('turn ended', 400, () => rig.of('turn-ended').length > 0);
  await rig.plates.stop();
  return rig;
}

const maximal = (rig: VirtualRig): ClosedTrial[] => rig.closed.filter(({ effort }) => effort === 'maximal');
const value = (trial: ClosedTrial | undefined, metric: string): number => {
  const measured = trial?.result.metrics[metric];
  if (measured === undefined || !('value' in measured)) throw new Error(`${metric}: ${JSON.stringify(measured)}`);
  return measured.value;
};

describe('people who jump on virtual plates, hands-free', () => {
  it.each(['countermovement', 'squat', 'drop', 'repeated'] as const)(
    'make a %s jump as the script has it',
    async (kind) => {
      const rig = await turnOf(kind);
      expect(rig.closed.map(({ effort }) => effort).slice(0, 2)).toEqual(['submaximal', 'submaximal']);
      const made = maximal(rig);
      expect(made.length).toBeGreaterThanOrEqual(2);
      for (const trial of made) {
        expect(trial).toMatchObject({ verdict: 'counts', reasons: [], ended: 'released' });
        // What the simulation was told, 2 cm either way: the virtual plates are noisy, and the landing is not that of the simulation.
        const height = value(trial, kind === 'repeated' ? 'hop_height_best_five' : 'jump_height');
        expect(Math.abs(height - 0.32)).toBeLessThan(0.02);
      }
      // Warm-up jumps are lower, and measured too.
      if (kind !== 'repeated') expect(value(rig.closed[0], 'jump_height')).toBeLessThan(0.22);
      expect(rig.of('mark').filter(({ label }) => label === 'step-off').length).toBeLessThanOrEqual(1);
    },
    60_000,
  );

  it('dip before a squat jump, and are told', async () => {
    const rig = await turnOf('squat', [{ attempt: 1, fault: 'dip' }]);
    expect(maximal(rig)[0]?.verdict).toBe('repeat');
    expect(rig.of('verdict').map(({ correction }) => correction?.words)).toContain('No dip: straight up');
    expect(maximal(rig).at(-1)?.verdict).toBe('counts');
  }, 60_000);

  it('jump off the box instead of stepping off it', async () => {
    const rig = await turnOf('drop', [{ attempt: 1, fault: 'jump-off' }]);
    const [first, second] = maximal(rig);
    expect(first?.result.checks.drop_from_box?.status).toBe('warn');
    expect(value(first, 'drop_height')).toBeGreaterThan(0.4);
    expect(second?.result.checks.drop_from_box?.status).toBe('pass');
    expect(rig.of('verdict').map(({ correction }) => correction?.words)).toContain('Step off, do not jump off');
  }, 60_000);

  it('stumble after the landing, or jump twice', async () => {
    const stumbled = await turnOf('countermovement', [{ attempt: 1, fault: 'stumble' }]);
    expect(maximal(stumbled)[0]).toMatchObject({ ended: 'not-still', reasons: ['not-still'] });
    const twice = await turnOf('countermovement', [{ attempt: 1, fault: 'second-jump' }]);
    const [first] = maximal(twice);
    expect(first?.ended).toBe('not-still');
    expect(Math.abs(value(first, 'jump_height') - 0.32)).toBeLessThan(0.02);
    expect(twice.closed.map(({ trial }) => trial)).toEqual(twice.closed.map((_, i) => i + 1));
  }, 60_000);

  it('step off instead of jumping, which is no jump, and come back', async () => {
    const rig = await turnOf('countermovement', [{ attempt: 1, fault: 'step-off' }]);
    expect(rig.of('effort-dismissed').map(({ because }) => because)).toEqual(['left-plates']);
    expect(maximal(rig).length).toBeGreaterThanOrEqual(2);
    for (const trial of maximal(rig)) expect(trial.verdict).toBe('counts');
  }, 60_000);
});
