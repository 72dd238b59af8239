import type { Channel, ForcePlatform, Notice, Recording } from '@sthene/core';
import { describeRecording, storageOf } from '../description/index.ts';
import { type CodedChannel, type Coding, encode } from './coding.ts';
import type { OwnGroup } from './own-group.ts';
import { forceOf } from './platforms.ts';

/** A channel as it goes into the file: the recording's own, or a platform's force that no channel gives. */
export interface PlannedChannel extends Pick<CodedChannel, 'stored' | 'offset' | 'scale'> {
  readonly name: string;
  readonly unit: string;
}

/** Everything decided before the first byte is laid down. */
export interface WritePlan {
  readonly channels: readonly PlannedChannel[];
  /** Platforms that fit the FORCE_PLATFORM group. */
  readonly platforms: readonly ForcePlatform[];
  readonly own: OwnGroup;
  readonly notices: readonly Notice[];
}

const channelsNeeded = (type: number): number => (type === 3 ? 8 : 6);

/** Plates beyond this would need records longer than a 16-bit offset can step over. */
const mostPlates = 200;

/** Whether the standard group can describe the platform: the channels its type prescribes are there. */
const isComplete = (platform: ForcePlatform): boolean =>
  platform.type >= 1 && platform.type <= 4
    ? platform.channels.length === channelsNeeded(platform.type)
    : platform.channels.length > 0 && platform.channels.length <= 255;

/** The baseline that turns the force computed from channels into the platform's own, or null if it is not a constant. */
function baselineOf(platform: ForcePlatform, recording: Recording): number | null {
  const force = platform.verticalForce;
  const computed = forceOf(platform.type, platform.calibration, platform.channels, recording.channels);
  if (force === undefined || computed === undefined) return null;
  const told = Number(recording.facts[`${platform.name}: baseline subtracted, N`] ?? 0);
  for (const baseline of Number.isFinite(told) ? [told, 0] : [0]) {
    if (
      force.every((value, i) => Object.is(value, baseline === 0 ? computed[i] : (computed[i] as number) - baseline))
    ) {
      return baseline;
    }
  }
  return null;
}

/**
 * Plans a C3D file: which channels, how each is coded, which platforms, and what the group STHENE keeps beside.
 *
 * A platform whose force does not follow from its channels gets a channel of its own, `<plate> Fz`, in N. Values of more digits
 * than a float has get one or two channels more for the rest, behind all others.
 */
export function planOf(recording: Recording): WritePlan {
  const notices: Notice[] = [];
  const sources: Channel[] = [...recording.channels];
  const baselines: number[] = [];
  const forceChannels: { platform: number; channel: number }[] = [];
  recording.platforms.forEach((platform, i) => {
    const baseline = platform.verticalForce === undefined ? 0 : baselineOf(platform, recording);
    baselines.push(baseline ?? 0);
    if (baseline === null) {
      forceChannels.push({ platform: i, channel: sources.length });
      const raw = platform.verticalForce as Float64Array;
      sources.push({ name: `${platform.name} Fz`, unit: 'N', raw, scale: 1, offset: 0 });
      notices.push({
        code: 'c3d-plate-as-channel',
        message: `The force of ${platform.name} does not follow from its channels; it was written as channel "${platform.name} Fz".`,
      });
    }
    if (!isComplete(platform)) {
      notices.push({
        code: 'c3d-plate-incomplete',
        message: `${platform.name} has not the channels that its type ${platform.type} prescribes; only this product reads it back as a plate.`,
      });
    }
  });
  const codings: Coding[] = [];
  const rests: PlannedChannel[] = [];
  const channels = sources.map((channel): PlannedChannel => {
    const { name, unit } = channel;
    const coded = encode(channel, storageOf(channel.raw));
    codings.push(coded.coding);
    if (coded.largestDifference > 0) {
      notices.push({
        code: 'c3d-precision',
        message: `${name}: 32-bit floats do not hold all its values; the largest difference is ${coded.largestDifference.toPrecision(2)} ${unit}.`,
      });
    }
    coded.rests.forEach((stored, i) => {
      rests.push({ stored, name: `${name} rest ${i + 1}`, unit, scale: channel.scale, offset: 0 });
    });
    return { stored: coded.stored, offset: coded.offset, scale: coded.scale, name, unit };
  });
  if (rests.length > 0) {
    notices.push({
      code: 'c3d-split',
      message: `32-bit floats hold the values to seven digits; what is left over stands in ${rests.length} channels named "... rest".`,
    });
  }
  const described = describeRecording(recording);
  const own: OwnGroup = {
    description: {
      ...described,
      notices: [...described.notices, ...notices.filter((n) => n.code === 'c3d-precision')],
    },
    codings,
    baselines,
    forceChannels,
  };
  return {
    channels: [...channels, ...rests],
    platforms: recording.platforms.filter(isComplete).slice(0, mostPlates),
    own,
    notices,
  };
}
