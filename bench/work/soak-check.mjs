// Reads a data folder after a long day: node soak-check.mjs LAB-FOLDER. Every sample of the journal follows the one before it, and
// every recording of a trial holds what the journal holds of its span, bit for bit.
import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { nodeJournalPort, readJournal } from '@sthene/capture';
import { bytesOf, formatOf } from '@sthene/formats';
import { folderFileStore, openStore } from '@sthene/store';
import { say } from './say.mjs';

const folder = process.argv[2];
const ids = { next: () => randomUUID() };
const store = await openStore({
  engine: { kind: 'sqlite', file: join(folder, 'sthene.sqlite') },
  files: folderFileStore({ folder, ids }),
  clock: { now: () => new Date().toISOString() },
  ids,
  application: 'sthene bench',
});

const waiting = [];
const { items } = await store.sessions.list({ limit: 500 });
for (const { session } of items)
  for (const trial of await store.trials.ofSession(session.id)) {
    const origin = await store.origins.ofTrial(trial.id);
    if (origin !== undefined && trial.recording) waiting.push({ trial, ...origin.span });
  }
waiting.sort((a, b) => a.start - b.start);

const result = {
  samples: 0,
  captures: 0,
  gaps: 0,
  faults: 0,
  broken: 0,
  trials: waiting.length,
  same: 0,
  different: 0,
};
let next;
let open = [];
for await (const packet of readJournal(nodeJournalPort, join(folder, 'journal'))) {
  if (packet.kind === 'header') {
    result.captures++;
    next = undefined;
  } else if (packet.kind === 'gap') result.gaps += packet.count;
  else if (packet.kind === 'fault') result.faults += packet.count;
  else if (packet.kind === 'samples') {
    const { first, count, values } = packet;
    if (next !== undefined && first !== next) result.broken++;
    next = first + count;
    result.samples += count;
    while (waiting.length > 0 && waiting[0].start < next) {
      const one = waiting.shift();
      open.push({ ...one, columns: [0, 1].map(() => new Float64Array(one.end - one.start).fill(Number.NaN)) });
    }
    for (const { start, end, columns } of open)
      for (let n = Math.max(first, start); n < Math.min(next, end); n++)
        for (let c = 0; c < 2; c++) columns[c][n - start] = values[c * count + n - first];
    const whole = open.filter(({ end }) => end <= next);
    open = open.filter(({ end }) => end > next);
    for (const one of whole)
      if (await sameAsKept(one)) result.same++;
      else result.different++;
  }
}
await store.close();
say(result);

async function sameAsKept({ trial, columns }) {
  const bytes = await store.recordings.bytes(trial.recording);
  const read = await formatOf('parquet').read(bytesOf(new Uint8Array(bytes), 'trial.parquet'), {});
  const channels = read.recordings?.[0]?.recording.channels ?? [];
  return (
    channels.length === 2 &&
    channels.every(
      ({ raw }, c) => raw.length === columns[c].length && columns[c].every((value, i) => Object.is(value, raw[i])),
    )
  );
}
