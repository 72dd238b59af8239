import type { Channel, RawSamples, Recording } from '@sthene/core';
import { assembleRecording, type RecordingDescription } from '../description/index.ts';
import { type Coding, decode } from './coding.ts';
import type { C3dLayout } from './layout.ts';
import type { Notices } from './notices.ts';
import type { OwnGroup } from './own-group.ts';
import { forceOf } from './platforms.ts';

/** The description shortened to the samples that are there (a truncated file). */
function shortened(description: RecordingDescription, sampleCount: number): RecordingDescription {
  const gaps = description.gaps
    .filter((gap) => gap.start < sampleCount)
    .map((gap) => ({ start: gap.start, end: Math.min(gap.end, sampleCount) }));
  return { ...description, sampleCount, gaps };
}

const restsIn = (coding: Coding | undefined): number => (coding?.kind === 'split' ? coding.rests : 0);

/**
 * The recording as it was before it was written, from the samples of the file and the group STHENE.
 *
 * Null when the group no longer fits the file (another program changed channels, scales or rate): the standard groups are
 * then read instead.
 */
export function restore(
  raw: readonly RawSamples[],
  standard: readonly Channel[],
  own: OwnGroup,
  layout: C3dLayout,
  notices: Notices,
): Recording | null {
  const { codings } = own;
  const length = raw[0]?.length ?? 0;
  const restsBefore = codings.map((_, i) => codings.slice(0, i).reduce((sum, coding) => sum + restsIn(coding), 0));
  const restsOf = (i: number): readonly RawSamples[] => {
    const first = codings.length + (restsBefore[i] ?? 0);
    return raw.slice(first, first + restsIn(codings[i]));
  };
  const written = codings.reduce((sum, coding) => sum + 1 + restsIn(coding), 0);
  if (written !== raw.length || length > own.description.sampleCount) return null;
  if (Math.fround(own.description.sampleRate) !== Math.fround(layout.sampleRate)) return null;
  const description = shortened(own.description, length);
  const unchanged = description.channels.every((channel, i) => {
    const coding = codings[i];
    const divisor = coding?.kind === 'decimal' ? 10 ** coding.digits : 1;
    return Math.fround(channel.scale / divisor) === standard[i]?.scale;
  });
  if (!unchanged) return null;

  const samples = description.channels.map((channel, i) =>
    decode(raw[i] as RawSamples, codings[i] ?? { kind: 'plain' }, channel.offset, channel.storage, restsOf(i)),
  );
  const forces = new Map<number, Float64Array>();
  for (const { platform, channel } of own.forceChannels) {
    const coding = codings[channel] ?? { kind: 'plain' };
    forces.set(platform, decode(raw[channel] as RawSamples, coding, 0, 'float64', restsOf(channel)) as Float64Array);
  }
  const without = assembleRecording(description, samples, forces);
  description.platforms.forEach((platform, i) => {
    if (!platform.hasForce || forces.has(i)) return;
    const force = forceOf(platform.type, platform.calibration, platform.channels, without.channels);
    if (force === undefined) return;
    const baseline = own.baselines[i] ?? 0;
    if (baseline !== 0) for (let n = 0; n < force.length; n++) force[n]! -= baseline;
    forces.set(i, force);
  });
  const recording = assembleRecording(description, samples, forces);
  const fresh = notices.list.filter((notice) => notice.code === 'c3d-truncated');
  return { ...recording, notices: [...recording.notices, ...fresh] };
}
