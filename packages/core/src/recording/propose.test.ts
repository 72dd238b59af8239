import { describe, expect, it } from 'vitest';
import { readName, wordsOf } from './channel-names.ts';
import { proposeForces } from './propose.ts';
import type { ForcePlatform, Recording } from './recording.ts';

function recording(
  names: readonly (readonly [name: string, unit: string])[],
  platforms: ForcePlatform[] = [],
  value = 700,
): Recording {
  return {
    sampleRate: 1000,
    rateOrigin: 'declared',
    sampleCount: 3,
    channels: names.map(([name, unit]) => ({ name, unit, raw: new Float64Array(3).fill(value), scale: 1, offset: 0 })),
    platforms,
    gaps: [],
    events: [],
    facts: {},
    notices: [],
  };
}

const platform = (name: string): ForcePlatform => ({
  name,
  type: 2,
  channels: [],
  verticalForce: new Float64Array(3),
  pressSign: -1,
});

/** Parts by channel or platform index, as text. */
const parts = (given: Recording) =>
  (proposeForces(given).selection?.inputs ?? []).map(({ from, part }) => `${from.index}:${part}`).join(' ');
const codes = (given: Recording) => proposeForces(given).reasons.map(({ code }) => code);

describe('names of channels', () => {
  it('split into words', () => {
    expect(wordsOf('ground_force1_vy')).toEqual(['ground', 'force', '1', 'vy']);
    expect(wordsOf('LFz')).toEqual(['l', 'fz']);
    expect(wordsOf('FzLeft')).toEqual(['fz', 'left']);
    expect(wordsOf('Fz2')).toEqual(['fz', '2']);
  });

  it('tell side and component', () => {
    expect(readName('Left Fz')).toEqual({ side: 'left', component: 'vertical' });
    expect(readName('Fz_R')).toEqual({ side: 'right', component: 'vertical' });
    expect(readName('ground_torque1_y').component).toBe('other');
    expect(readName('ground_force2_vx').component).toBe('horizontal');
    expect(readName('Total force')).toEqual({ side: 'total', component: 'force' });
    expect(readName('lamp')).toEqual({ side: 'none', component: 'unknown' });
  });
});

describe('proposed forces', () => {
  it('know our own header, whatever else is there', () => {
    const given = recording([
      ['left_n', ''],
      ['right_n', 'N'],
      ['Fz', 'N'],
    ]);
    expect(parts(given)).toBe('0:left 1:right');
    expect(proposeForces(given).selection?.inputs[0]?.unit).toBe('N');
    expect(codes(given)).toEqual(['force-own-header', 'force-own-header']);
    expect(parts(recording([['total_n', 'N']]))).toBe('0:total');
  });

  it('take platforms, with sides only where the names give them', () => {
    expect(parts(recording([], [platform('1')]))).toBe('0:none');
    expect(parts(recording([], [platform('1'), platform('2')]))).toBe('0:none 1:none');
    expect(codes(recording([], [platform('1'), platform('2')]))).toContain('force-sides-unknown');
    expect(parts(recording([], [platform('Right plate'), platform('Left plate')]))).toBe('0:right 1:left');
    expect(codes(recording([], [platform('1'), platform('2'), platform('3')]))).toContain('force-many-platforms');
  });

  it('prefer vertical components', () => {
    const given = recording(
      ['vx', 'vy', 'vz', 'px', 'py'].flatMap((part) => [
        [`ground_force1_${part}`, ''],
        [`ground_force2_${part}`, ''],
      ]) as [string, string][],
    );
    expect(parts(given)).toBe('2:none 3:none');
    expect(codes(given)).toContain('force-unit-assumed');
    expect(
      parts(
        recording([
          ['Fx', 'N'],
          ['Fy', 'N'],
          ['Fz', 'N'],
          ['Mx', 'N.m'],
        ]),
      ),
    ).toBe('2:total');
  });

  it('read sides and a declared total', () => {
    expect(
      parts(
        recording([
          ['Left', 'N'],
          ['Right', 'N'],
        ]),
      ),
    ).toBe('0:left 1:right');
    expect(
      parts(
        recording([
          ['Force L', 'N'],
          ['Force R', 'N'],
          ['Force', 'N'],
        ]),
      ),
    ).toBe('0:left 1:right');
    expect(
      parts(
        recording([
          ['left force', 'kgf'],
          ['right force', 'kgf'],
          ['total force', 'kgf'],
        ]),
      ),
    ).toBe('0:left 1:right 2:total');
  });

  it('take a single force column for the total, and turn a negative one round', () => {
    expect(parts(recording([['GRF', 'N']]))).toBe('0:total');
    expect(parts(recording([['column 1', '']]))).toBe('0:total');
    const negative = proposeForces(recording([['GRF', 'N']], [], -700));
    expect(negative.selection?.inputs[0]?.sign).toBe(-1);
  });

  it('do not choose voltages or strangers', () => {
    const volts = proposeForces(
      recording([
        ['Fz left', 'V'],
        ['Fz right', 'V'],
      ]),
    );
    expect(volts.selection).toBeUndefined();
    expect(volts.candidates.map(({ reason }) => reason.code)).toEqual([
      'force-needs-calibration',
      'force-needs-calibration',
    ]);
    const none = proposeForces(
      recording([
        ['emg', 'mV'],
        ['angle', 'deg'],
      ]),
    );
    expect(none.selection).toBeUndefined();
    expect(none.reasons.map(({ code }) => code)).toEqual(['force-none-found']);
  });
});
