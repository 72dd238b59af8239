import { describe, expect, it } from 'vitest';
import { analyseClosed, type ClosedTrial, forcesOfSpan } from '../../src/engine/index.ts';
import { ready, staged } from './acts.ts';
import { defaultMethod, faults, imtpLeft, imtpProtocol } from './core.ts';
import { athlete, header, recordedOf, type Stage } from './stage.ts';

/** The trial again from what a journal would hold: raw samples of the span, channels, and the facts of the trial. */
function again(stage: Stage, trial: ClosedTrial, protocol = imtpProtocol) {
  const { left, right } = recordedOf(stage);
  const { start, end } = trial.span;
  const raw = [left.slice(start, end), right.slice(start, end)];
  const { channels } = header(stage.rate, stage.range);
  const forces = forcesOfSpan({ sampleRate: trial.sampleRate, channels, raw }, trial.zeros, 'N');
  if (!forces.ok) throw new Error(forces.reason);
  return analyseClosed(forces.value, trial, protocol, defaultMethod, 9.80665);
}

const wren = athlete('p-wren', { noise: 0.5, shareRight: 0.52 });

describe('live and stored agree to the last digit', () => {
  for (const fault of [undefined, ...faults.filter(({ id }) => id !== 'low-rate' && id !== 'step-on')]) {
    it(`in a pull with ${fault?.id ?? 'no fault'}`, () => {
      const oneLeg = fault?.id === 'other-foot';
      const protocol = oneLeg ? imtpLeft : imtpProtocol;
      const who = oneLeg ? { ...wren, shareRight: 0 } : wren;
      // Plates that end below the pull.
      const range = fault?.id === 'clipping' ? 900 : 10_000;
      const share = range / (wren.shareRight * (wren.bodyWeight + wren.netForce));
      const clipped = fault?.id === 'clipping' ? { severity: { share } } : {};
      const stage = staged(who, {}, { protocol }, range);
      ready(stage);
      // The whole simulated stand is played, so that what goes wrong before the pull is there.
      const spec =
        fault === undefined ? {} : { fault: fault.id, ...(oneLeg ? { limbs: 'left' as const } : {}), ...clipped };
      const simulated = stage.pull(spec, 21, 2.4);
      if (stage.phase === 'pull') stage.wait(2);
      stage.stepOff();
      stage.wait(2);
      const [trial, ...more] = stage.closed;
      if (trial === undefined) throw new Error(`no trial was closed in phase ${stage.phase}`);
      expect(more).toEqual([]);
      expect(again(stage, trial, protocol)).toEqual(trial.result);
      const reviewed = stage.of('trial-reviewed').map(({ trial: review }) => review);
      expect(reviewed).toHaveLength(1);
      expect(reviewed[0]?.unloaded?.after).toBeCloseTo(0, 0);
      expect(again(stage, reviewed[0]!, protocol)).toEqual(reviewed[0]!.result);
      expect(reviewed[0]!.result.checks.zero_after?.status).toBe('pass');
      // Uncued, so never `counts`; what the checks say of the curve is beside it.
      expect(trial.verdict).not.toBe('counts');
      expect(trial.reasons).toContain('pulled-without-cue');
      if (fault === undefined) expect(trial.result.verdict).toBe('counts');
      else if (fault.marginal?.when(simulated.truth.severity) !== true) {
        expect(fault.expected).toContain(trial.result.verdict);
      }
    });
  }

  it('with several cells under a plate, an offset and another unit', () => {
    const channels = ['a', 'b'].map((name) => ({
      name,
      plate: 'one',
      side: 'none' as const,
      axis: 'z' as const,
      unit: 'kN',
      scale: 0.001,
      offset: 100,
    }));
    const raw = channels.map((_, c) => Float64Array.from({ length: 100 }, (_, i) => 100 + c + i));
    const forces = forcesOfSpan({ sampleRate: 1000, channels, raw }, { a: 4, b: 6 }, 'N');
    expect(forces.ok && forces.value.plates).toHaveLength(1);
    expect(forces.ok && forces.value.total[7]).toBeCloseTo(7 + 8 - 10, 9);
  });
});
