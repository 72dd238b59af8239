import { randomUUID } from 'node:crypto';
import { setTimeout as wait } from 'node:timers/promises';
import {
  listSerialPorts,
  type Packet,
  parseSourceDescription,
  type SamplesPacket,
  type SourceDescription,
  type StreamChannel,
} from '@sthene/capture';
import type { RigState, SourceCheck, SourceProbe } from '@sthene/contract';
import { sdOf } from '@sthene/core';
import { ProblemError } from '../../server/problem-error.ts';
import type { LiveLab } from '../live-lab.ts';
import { counted, noCounts } from './counts.ts';

/** Serial ports of this machine. */
export async function serialPorts(): Promise<{ path: string; serialNumber?: string; maker?: string }[]> {
  return (await listSerialPorts()).map(({ path, serialNumber, manufacturer }) => ({
    path,
    ...(serialNumber === undefined ? {} : { serialNumber }),
    ...(manufacturer === undefined ? {} : { maker: manufacturer }),
  }));
}

/** What is wrong with a description, field by field; nothing is opened. */
export function checkSource(description: unknown): SourceCheck {
  const parsed = parseSourceDescription(description);
  if (parsed.ok) return { ok: true, faults: [] };
  return {
    ok: false,
    faults: parsed.problems.map(({ at, code, message, expected, found }) => ({
      path: at,
      code,
      words: [message, expected && `Expected: ${expected}.`, found !== undefined && `Found: ${found}.`]
        .filter(Boolean)
        .join(' '),
      next: 'Correct this field.',
    })),
  };
}

/** Values kept of each channel while listening. */
const kept = 60_000;

/** Listens to a source for a moment; nothing of it is stored, and the rig it may belong to must be closed. */
export async function probeSource(live: LiveLab, value: unknown, seconds: number): Promise<SourceProbe> {
  const parsed = parseSourceDescription(value);
  if (!parsed.ok)
    throw new ProblemError(
      400,
      parsed.problems[0]?.code ?? 'request-invalid',
      parsed.problems.map(({ at, message }) => `${at || '/'} ${message}`).join(' '),
      'Correct what is named, then listen again.',
    );
  const heard = await listen(live, parsed.description, seconds);
  return summary(heard);
}

interface Heard {
  readonly packets: Packet[];
  failure?: string;
}

async function listen(live: LiveLab, description: SourceDescription, seconds: number): Promise<Heard> {
  const heard: Heard = { packets: [] };
  try {
    const source = live.ports.createSource(`probe-${randomUUID()}`, [description]);
    await source.start((packet) => heard.packets.push(packet));
    await wait(1000 * seconds);
    await source.stop();
  } catch (error) {
    heard.failure = error instanceof Error ? error.message : String(error);
  }
  return heard;
}

function summary({ packets, failure }: Heard): SourceProbe {
  const header = packets.find((one) => one.kind === 'header');
  const samples = packets.filter((one): one is SamplesPacket => one.kind === 'samples');
  const counts = packets.reduce(counted, noCounts);
  const words = packets.findLast((one) => one.kind === 'status' && one.state !== 'ended');
  const clock = packets.findLast((one) => one.kind === 'clock' && one.measuredRate !== undefined);
  const state: RigState = failure !== undefined ? 'faulty' : samples.length > 0 ? 'measuring' : 'quiet';
  return {
    state,
    words: failure ?? (words?.kind === 'status' ? words.words : samples.length > 0 ? 'Samples came.' : 'Nothing came.'),
    samples: counts.samples,
    missing: counts.missing,
    faults: counts.doubled + counts.late + counts.checksum + counts.unreadable,
    ...(clock?.kind === 'clock' && clock.measuredRate !== undefined ? { measuredRate: clock.measuredRate } : {}),
    channels: header?.kind === 'header' ? header.channels.flatMap((one, c) => channelSummary(one, c, samples)) : [],
    candidates: [],
  };
}

function channelSummary(
  { name, unit, scale, offset }: StreamChannel,
  channel: number,
  samples: readonly SamplesPacket[],
): SourceProbe['channels'] {
  const values: number[] = [];
  for (const { count, values: raw } of samples)
    for (let i = 0; i < count && values.length < kept; i++)
      values.push(((raw[channel * count + i] ?? 0) - offset) * scale);
  if (values.length === 0) return [];
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    min = Math.min(min, value);
    max = Math.max(max, value);
  }
  return [{ name, unit, mean, min, max, sd: values.length > 1 ? sdOf(values) : 0, last: values.slice(-20) }];
}
