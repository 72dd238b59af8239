import type { StreamChannel } from '@sthene/capture';
import type { RigView } from '@sthene/contract';
import type { Rig, StoredSource } from '@sthene/store';
import { millisecondsOf, type StationClock } from '../clock.ts';
import { noCounts } from './counts.ts';
import { secondsOf } from './last-second.ts';
import type { RigRuntime } from './rig-runtime.ts';
import type { RigStream } from './rig-stream.ts';

/** Rates further apart than this are told, as a share. */
const rateTolerance = 0.005;
/** Clock evidence older than this is old, ms. */
const evidenceAge = 15_000;

/** A rig as screens show it, open or not. */
export function rigView(
  rig: Rig,
  runtime: RigRuntime | undefined,
  sources: readonly StoredSource[],
  clock: StationClock,
  check?: RigView['check'],
): RigView {
  const stream = runtime?.stream;
  const header = stream?.header;
  const promised = header?.promisedRate ?? promisedRate(sources);
  const measured = stream?.measuredRate;
  const state = stream?.state ?? 'closed';
  const words = stream?.words ?? 'The rig is closed.';
  return {
    id: rig.id,
    revision: rig.revision,
    name: rig.name,
    letter: rig.letter,
    shape: rig.shape as RigView['shape'],
    notes: rig.notes,
    sources: sources.map(({ id, name }, i) => ({ id, name, state, words, ...runtime?.parts[i] })),
    state,
    words,
    ...virtualPart(sources),
    ...(header?.device === undefined ? {} : { device: header.device }),
    rate: {
      promised,
      ...(measured === undefined ? {} : { measured }),
      ...(stream?.rateUncertainty === undefined ? {} : { uncertainty: stream.rateUncertainty }),
      differs: measured !== undefined && Math.abs(measured - promised) > rateTolerance * promised,
    },
    channels: channelViews(header?.channels ?? [], stream),
    ...(stream?.lastSampleAt === undefined
      ? {}
      : { lastSample: millisecondsOf(clock.monotonic()) - millisecondsOf(stream.lastSampleAt) }),
    counts: stream?.counts ?? noCounts,
    zero:
      stream?.zeroAt === undefined
        ? { held: false, words: 'No zero has been taken since the rig was opened.' }
        : { at: stream.zeroAt, held: true, words: 'The zero was taken with empty plates.' },
    disk: runtime?.journal.disk() ?? { bytesPerSecond: 0, warning: false },
    clock: clockView(runtime, clock),
    ...(check === undefined ? {} : { check }),
  };
}

/** Whether any of it is only played, and how fast. */
export function virtualPart(sources: readonly StoredSource[]): Pick<RigView, 'virtual'> {
  for (const { description } of sources) {
    const { transport } = description as { readonly transport?: { readonly kind?: string; readonly speed?: number } };
    if (transport?.kind === 'virtual') return { virtual: { speed: transport.speed ?? 1 } };
  }
  return {};
}

function channelViews(channels: readonly StreamChannel[], stream: RigStream | undefined): RigView['channels'] {
  const rate = Math.round(stream?.rate ?? 0);
  const recent = stream?.recent;
  const seconds = secondsOf(
    channels,
    (c) => recent?.copy(c, Math.max(recent.oldest, recent.next - rate), recent.next),
    rate,
  );
  return channels.map(({ name, plate, side, axis, unit }, c) => {
    const zero = stream?.zeros[name];
    const noise = stream?.noise[name];
    const second = seconds[c];
    return {
      ...{ name, plate, side, axis, unit },
      ...(zero === undefined ? {} : { zero }),
      ...(noise === undefined ? {} : { noise }),
      ...(second === undefined ? {} : { second }),
    };
  });
}

function clockView(runtime: RigRuntime | undefined, clock: StationClock): RigView['clock'] {
  const at = runtime?.stream.clockAt;
  if (at === undefined)
    return { evidence: 'none', words: 'The clock of this stream has not been compared with the station yet.' };
  const age = millisecondsOf(clock.monotonic()) - millisecondsOf(at);
  const residual = runtime?.residual;
  const tied =
    residual === undefined
      ? 'The clock of this stream is tied to the station.'
      : 'The clocks of the sources are tied to one another; the number is the scatter of the worst of them.';
  return {
    ...(age <= evidenceAge
      ? { evidence: 'good' as const, words: tied }
      : {
          evidence: 'old' as const,
          words: `The clock of this stream was last compared ${Math.round(age / 1000)} s ago.`,
        }),
    ...(residual === undefined ? {} : { residual }),
  };
}

function promisedRate(sources: readonly StoredSource[]): number {
  const first = sources[0]?.description as { readonly rate?: unknown } | undefined;
  return typeof first?.rate === 'number' ? first.rate : 0;
}
