import { stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { MonotonicNanoseconds } from '@sthene/core';
import { secondsAfter, secondsBetween } from '../../../clock/time.ts';
import { nodeJournalPort } from '../../../journal/node/index.ts';
import { readJournal } from '../../../journal/read.ts';
import type { Packet } from '../../../packets/packet.ts';
import { calibrated } from '../../calibration/calibrated.ts';
import type { SourceDescription, Transport } from '../../description.ts';
import { channelsOf } from '../../file/channels-of.ts';
import { readRecordings } from '../../file/read-recordings.ts';
import { recordingPackets } from '../../file/recording-packets.ts';
import { type Due, type PacedRun, paced } from '../../pacing.ts';
import type { Source } from '../../source.ts';
import type { TransportPorts } from '../../transport-ports.ts';
import { fileBytes } from '../file-bytes.ts';

export interface ReplaySource extends Source {
  /** Resolves when everything has been played. */
  readonly done: Promise<void>;
}

type Tell = (packet: Packet) => void;

/** Length of a packet, s: short at a pace for people, long where only the end counts. */
const pacedPiece = 0.02;
const freePiece = 1;

/**
 * Plays a recording of any known format, or a journalled day (a folder), at true speed, faster, or as fast as possible. Times of packets
 * lie on the recording's own time, counted from when the replay began, so that what reads them sees the recording's pace
 * whatever the speed. A journalled day keeps all of its packets, made channels among them, but takes that new beginning, too.
 */
export function replaySource(description: SourceDescription, ports: TransportPorts): ReplaySource {
  const { file, speed, repeat = false } = description.transport as Extract<Transport, { kind: 'replay' }>;
  const { clock } = ports;
  const free = speed === 0 || speed === Number.POSITIVE_INFINITY;
  const { id } = ports;
  let run: PacedRun | undefined;
  let finish = (): void => {};
  const done = new Promise<void>((resolveDone) => {
    finish = resolveDone;
  });

  async function* recorded(began: MonotonicNanoseconds, tell: Tell): AsyncGenerator<Due> {
    const read = await readRecordings(await fileBytes(resolve(file)), description.rate);
    if (!read.ok) throw new Error(read.words);
    let start = 0;
    do {
      for (const { recording, label } of read.recordings) {
        const found = channelsOf(recording, description.channels);
        if (!found.ok) throw new Error(`The file has no channel ${found.missing.map((one) => `"${one}"`).join(', ')}.`);
        const stream = {
          source: id,
          ...(label === '' ? {} : { device: label }),
          channels: found.channels,
          began: secondsAfter(began, start),
          wallClock: recording.recordedAt ?? clock.wall(),
          piece: Math.max(1, Math.round((free ? freePiece : pacedPiece) * recording.sampleRate)),
        };
        const hand = calibrated(description.calibration, tell);
        for (const packet of recordingPackets(recording, stream)) {
          yield { after: secondsBetween(began, packet.at), act: () => hand(packet) };
        }
        start += recording.sampleCount / recording.sampleRate;
      }
    } while (repeat);
  }

  async function* journalled(
    packets: Iterable<Packet> | AsyncIterable<Packet>,
    began: MonotonicNanoseconds,
    tell: Tell,
  ): AsyncGenerator<Due> {
    let first: MonotonicNanoseconds | undefined;
    for await (const packet of packets) {
      first ??= packet.at;
      const after = secondsBetween(first, packet.at);
      yield { after, act: () => tell({ ...packet, at: secondsAfter(began, after) }) };
    }
  }

  return {
    id,
    done,
    async start(emit) {
      const began = clock.monotonic();
      let ended = false;
      const tell = (packet: Packet) => {
        ended = packet.kind === 'end';
        emit(packet);
      };
      const fail = (error: unknown) => {
        const words = `The recording cannot be replayed: ${(error as Error).message}`;
        emit({ kind: 'status', state: 'lost', words, at: clock.monotonic() });
      };
      try {
        const isDay = (await stat(resolve(file))).isDirectory();
        const day = () => ports.openDay?.(resolve(file)) ?? readJournal(nodeJournalPort, resolve(file));
        run = paced(isDay ? journalled(day(), began, tell) : recorded(began, tell), speed, clock);
      } catch (error) {
        fail(error);
        return finish();
      }
      void run.done.catch(fail).then(() => {
        if (!ended) emit({ kind: 'status', state: 'ended', words: 'The replay is over.', at: clock.monotonic() });
        finish();
      });
    },
    async stop() {
      run?.stop();
      await done;
    },
  };
}
