import { mkdir } from 'node:fs/promises';
import { basename, resolve } from 'node:path';
import { type FSWatcher, watch } from 'chokidar';
import type { Packet } from '../../../packets/packet.ts';
import { calibrated } from '../../calibration/calibrated.ts';
import type { SourceDescription, Transport } from '../../description.ts';
import { channelsOf } from '../../file/channels-of.ts';
import { readRecordings } from '../../file/read-recordings.ts';
import { recordingPackets } from '../../file/recording-packets.ts';
import type { Source } from '../../source.ts';
import type { TransportPorts } from '../../transport-ports.ts';
import { fileBytes } from '../file-bytes.ts';
import { fitsPattern } from './name-pattern.ts';

/** A file is complete when its size has stood still this long, ms; it is read well within a second of that. */
const settled = 300;

/**
 * A watched folder: each new file is one stream, from its own header to its own end, one after another, whole. Files that were
 * there before are left alone, and so are names that programs give to what they have not finished. A file that cannot be read is
 * told in words, stays where it is, and hinders no other. The same name written again is another stream.
 */
export function folderSource(description: SourceDescription, ports: TransportPorts): Source {
  const { path, pattern } = description.transport as Extract<Transport, { kind: 'folder' }>;
  const { clock } = ports;
  const { id } = ports;
  let watcher: FSWatcher | undefined;
  let queue: Promise<void> = Promise.resolve();
  let emitted: ((packet: Packet) => void) | undefined;

  const take = async (file: string, emit: (packet: Packet) => void): Promise<void> => {
    const name = basename(file);
    const refuse = (words: string) =>
      emit({ kind: 'status', state: 'connected', words: `"${name}" was left out. ${words}`, at: clock.monotonic() });
    try {
      const read = await readRecordings(await fileBytes(file), description.rate);
      if (!read.ok) return refuse(read.words);
      for (const { recording, label } of read.recordings) {
        if (emitted === undefined) return;
        const found = channelsOf(recording, description.channels);
        if (!found.ok) {
          refuse(`It has no channel ${found.missing.map((one) => `"${one}"`).join(', ')}.`);
          continue;
        }
        const device = label === '' ? name : `${name} ${label}`;
        const began = { began: clock.monotonic(), wallClock: recording.recordedAt ?? clock.wall() };
        const hand = calibrated(description.calibration, emit);
        for (const packet of recordingPackets(recording, {
          source: id,
          device,
          channels: found.channels,
          piece: 1000,
          ...began,
        })) {
          hand(packet);
        }
      }
    } catch (error) {
      refuse(`It could not be read: ${(error as Error).message}`);
    }
  };

  return {
    id,
    async start(emit) {
      emitted = emit;
      const folder = resolve(path);
      try {
        await mkdir(folder, { recursive: true });
      } catch (error) {
        const words = `The folder ${folder} cannot be watched: ${(error as Error).message}`;
        emit({ kind: 'status', state: 'lost', words, at: clock.monotonic() });
        return;
      }
      const watching = watch(folder, {
        depth: 0,
        ignoreInitial: true,
        followSymlinks: false,
        awaitWriteFinish: { stabilityThreshold: settled, pollInterval: 60 },
      });
      watcher = watching;
      const came = (file: string): void => {
        const name = basename(file);
        if (!fitsPattern(name, pattern)) return;
        queue = queue.then(() => (emitted === undefined ? undefined : take(file, emit)));
      };
      watching.on('add', came);
      // The same name once more, or a file that grew after it was read: what is there now is a trial of its own, and nothing is lost.
      watching.on('change', came);
      watching.on('error', (error) => {
        const words = `Watching ${folder} failed: ${(error as Error).message}`;
        emit({ kind: 'status', state: 'lost', words, at: clock.monotonic() });
      });
      await new Promise<void>((ready) => watching.once('ready', () => ready()));
      emit({ kind: 'status', state: 'connected', words: `Watching ${folder}.`, at: clock.monotonic() });
    },
    async stop() {
      const emit = emitted;
      emitted = undefined;
      await watcher?.close();
      await queue;
      emit?.({ kind: 'status', state: 'ended', words: 'The folder is no longer watched.', at: clock.monotonic() });
    },
  };
}
