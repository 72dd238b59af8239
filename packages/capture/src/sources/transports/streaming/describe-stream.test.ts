import { describe, expect, it } from 'vitest';
import type { StreamInfo } from '../../../streaming/stream-info.ts';
import { parseSourceDescription } from '../../description/parse.ts';
import { describeStream, unusable } from './describe-stream.ts';

const info = (
  labels: readonly (readonly [label: string, unit: string])[],
  more: Partial<StreamInfo> = {},
): StreamInfo => ({
  ...{ name: 'Plates', type: 'Force', channelCount: labels.length, format: 'float32', rate: 1000, sourceId: 'FW-0007' },
  ...{ uid: 'u', sessionId: 'default', hostname: 'fernwater-1', version: 110, createdAt: 1, address: '' },
  ...{ dataPort: 16_572, servicePort: 16_573 },
  channels: labels.map(([label, unit]) => ({ label, unit, type: '' })),
  ...more,
});

const said = (labels: readonly (readonly [string, string])[]) =>
  describeStream(info(labels)).channels.map(({ name, side, axis, unit }) => [name, side, axis, unit]);

describe('a description of a stream', () => {
  it('takes sides and axes from the labels, and forces from the unit', () => {
    expect(
      said([
        ['Left Fz', 'N'],
        ['right_fx', 'newtons'],
        ['plate2 My', 'Nm'],
        ['Pull', 'kN'],
        ['Knee angle', 'deg'],
        ['', ''],
      ]),
    ).toEqual([
      ['Left Fz', 'left', 'z', 'N'],
      ['right_fx', 'right', 'x', 'N'],
      ['plate2 My', 'none', 'my', 'N.m'],
      ['Pull', 'none', 'force', 'kN'],
      ['Knee angle', 'none', 'other', 'deg'],
      ['channel 6', 'none', 'other', '1'],
    ]);
  });

  it('counts a total beside its sides as no force of its own, and alone as one', () => {
    const axes = (labels: string[]) => said(labels.map((label) => [label, 'N'] as const)).map(([, , axis]) => axis);
    expect(axes(['total', 'left', 'right'])).toEqual(['other', 'force', 'force']);
    expect(axes(['total'])).toEqual(['force']);
  });

  it('is let in by the door, whatever the sender calls its channels', () => {
    const long = 'x'.repeat(200);
    for (const labels of [['a', 'a', 'a'], [long, long], ['', ''], ['Left Fz']]) {
      const description = describeStream(info(labels.map((label) => [label, 'N'] as const)), {
        host: '10.0.0.4',
        port: 16_580,
      });
      expect(parseSourceDescription(description)).toEqual({ ok: true, description });
      expect(new Set(description.channels.map(({ name }) => name)).size).toBe(labels.length);
    }
    const bare = describeStream(info([], { channelCount: 2, name: '', type: '', sourceId: 'FW-0007' }));
    expect(parseSourceDescription(bare)).toEqual({ ok: true, description: bare });
    expect(bare.transport).toEqual({ kind: 'stream', sourceId: 'FW-0007' });
  });

  it('says of which streams no rig can be made', () => {
    expect(unusable(info([['a', 'N']]))).toBeUndefined();
    expect(unusable(info([['a', '']], { format: 'string' }))).toContain('texts');
    expect(unusable(info([['a', 'N']], { rate: 0 }))).toContain('no rate');
    expect(unusable(info([['a', 'N']], { channelCount: 257 }))).toContain('256');
  });
});
