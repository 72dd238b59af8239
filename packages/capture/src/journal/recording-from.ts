import type {
  MonotonicNanoseconds,
  Notice,
  Outcome,
  Recording,
  SampleSpan,
  SourceEvent,
  UtcInstant,
} from '@sthene/core';
import { have, joinSpans, lack, outsideSpans } from '@sthene/core';
import type { ClockPacket, HeaderPacket, Packet, StreamChannel } from '../packets/packet.ts';
import { platformsOfChannels } from '../packets/platforms-of.ts';

/** Within this share of it the promised rate stands; beyond the other the difference is worth a warning. */
const rateAgrees = 0.0005;
const rateWarns = 0.005;

/**
 * Turns packets into a recording of the samples [start, end): raw values exactly as received, every sample that was not
 * received NaN and listed as a gap, marks inside as events.
 *
 * The rate is the promised one when the measured rate is within 0.05 % of it (or not yet known to 0.05 %), else the measured
 * one, with a notice. A sample received twice keeps its first value. Depends on nothing but the packets, so the same journal
 * gives the same recording whenever it is asked.
 *
 * @param packets in the order of the journal, beginning at or before the span; those behind it change nothing
 * @returns `no-force-channel` without a header; `recording-too-short` for a span without any received sample
 */
export function recordingFrom(packets: Iterable<Packet>, span: SampleSpan): Outcome<Recording> {
  const { start, end } = span;
  const sampleCount = end - start;
  if (!(Number.isInteger(start) && Number.isInteger(end) && start >= 0)) {
    throw new RangeError('A span is two whole sample indices.');
  }
  let header: HeaderPacket | undefined;
  let columns: Float64Array[] = [];
  const received: { start: number; end: number }[] = [];
  const marks: { label: string; sample: number }[] = [];
  const notices: Notice[] = [];
  let reference: { sample: number; at: MonotonicNanoseconds; wallClock: UtcInstant } | undefined;
  let rate: ClockPacket | undefined;
  let changed = false;
  for (const packet of packets) {
    if (packet.kind === 'header') {
      if (header === undefined || received.length === 0) {
        header = packet;
        columns = packet.channels.map(() => new Float64Array(Math.max(0, sampleCount)).fill(Number.NaN));
        changed = false;
      } else changed ||= JSON.stringify(packet.channels) !== JSON.stringify(header.channels);
    } else if (packet.kind === 'clock' && packet.sample < end) {
      if (reference === undefined || packet.sample <= start) reference = packet;
      if (packet.measuredRate !== undefined) rate = packet;
    } else if (packet.kind === 'mark' && packet.sample >= start && packet.sample < end) {
      marks.push(packet);
    } else if (packet.kind === 'samples' && header !== undefined) {
      const from = Math.max(start, packet.first);
      const to = Math.min(end, packet.first + packet.count);
      if (to <= from) continue;
      if (changed || packet.values.length !== columns.length * packet.count) {
        if (!notices.some(({ code }) => code === 'channels-changed')) {
          notices.push({
            code: 'channels-changed',
            message: `From sample ${from - start} on the source sends other channels; those samples are left out.`,
          });
        }
        continue;
      }
      const holes = outsideSpans([{ start: from, end: to }], joinSpans(received));
      for (const hole of holes) {
        for (const [c, column] of columns.entries()) {
          const at = c * packet.count - packet.first;
          column.set(packet.values.subarray(at + hole.start, at + hole.end), hole.start - start);
        }
      }
      addSpan(received, from, to);
    }
  }
  if (header === undefined) return lack('no-force-channel');
  if (received.length === 0) return lack('recording-too-short');
  const { promisedRate } = header;
  const chosen = chooseRate(promisedRate, rate, notices);
  const recordedAt = reference && instantAt(reference, (start - reference.sample) / chosen.sampleRate);
  return have({
    ...chosen,
    sampleCount,
    channels: columns.map((raw, c) => {
      const { unit, scale, offset, rawRange } = (header as HeaderPacket).channels[
        c
      ] as HeaderPacket['channels'][number];
      const name = uniqueName((header as HeaderPacket).channels, c);
      return { name, unit, raw, scale, offset, ...(rawRange === undefined ? {} : { rawRange }) };
    }),
    platforms: platformsOfChannels(header.channels),
    gaps: outsideSpans(
      [{ start: 0, end: sampleCount }],
      joinSpans(received.map((run) => ({ start: run.start - start, end: run.end - start }))),
    ),
    events: marks.map(({ label, sample }): SourceEvent => ({ label, time: (sample - start) / chosen.sampleRate })),
    ...(recordedAt === undefined ? {} : { recordedAt }),
    facts: factsOf(header, start),
    notices,
  });
}

/** Adds a run; runs come in order nearly always, so the last one usually grows. */
function addSpan(spans: { start: number; end: number }[], start: number, end: number): void {
  const last = spans.at(-1);
  if (last !== undefined && start <= last.end && start >= last.start) last.end = Math.max(last.end, end);
  else spans.push({ start, end });
}

function chooseRate(promised: number, clock: ClockPacket | undefined, notices: Notice[]) {
  const measuredRate = clock?.measuredRate;
  if (measuredRate === undefined) return { sampleRate: promised, rateOrigin: 'declared' } as const;
  const apart = Math.abs(measuredRate - promised) / promised;
  const trusted = (clock?.rateUncertainty ?? 0) <= rateAgrees * promised;
  if (apart <= rateAgrees || !trusted) return { sampleRate: promised, rateOrigin: 'declared', measuredRate } as const;
  const measured = `The source promised ${promised} Hz and gave ${measuredRate.toPrecision(7)} Hz; the measured rate is used.`;
  notices.push({ code: apart > rateWarns ? 'rate-not-as-declared' : 'rate-measured', message: measured });
  return { sampleRate: measuredRate, rateOrigin: 'time-column', measuredRate } as const;
}

function instantAt(reference: { wallClock: UtcInstant }, seconds: number): UtcInstant {
  return new Date(Date.parse(reference.wallClock) + seconds * 1000).toISOString() as UtcInstant;
}

function uniqueName(channels: HeaderPacket['channels'], index: number): string {
  const name = (channels[index] as HeaderPacket['channels'][number]).name;
  const before = channels.slice(0, index).filter((channel) => channel.name === name).length;
  return before === 0 ? name : `${name} (${before + 1})`;
}

/** Where it came from, and which plate, side and axis each channel is. */
function factsOf(header: HeaderPacket, start: number): Record<string, string> {
  const { source, device, channels } = header;
  return {
    source,
    ...(device === undefined ? {} : { device }),
    firstSample: String(start),
    plates: JSON.stringify(channels.map(({ name, plate, side, axis }) => ({ name, plate, side, axis }))),
    ...calibrationFact(channels),
  };
}

/** Which channels a calibration made of which others, as a fact of a recording; nothing where none was. */
export function calibrationFact(channels: readonly StreamChannel[]): Record<string, string> {
  const made = channels.flatMap(({ name, madeOf }) => (madeOf === undefined ? [] : [{ name, madeOf }]));
  return made.length === 0 ? {} : { calibration: JSON.stringify(made) };
}
