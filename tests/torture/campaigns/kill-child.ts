// A child of the kill campaign: journals index-encoded samples as fast as a busy rig and tells on stdout what is safe.
import { nodeJournalPort, openJournal } from '@sthene/capture';
import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import { drawFrom, encodedHeader, encodedSamples } from '../ports.ts';

const [folder = '', seed = '1'] = process.argv.slice(2);
const draw = drawFrom(Number(seed));
const clock = {
  monotonic: () => process.hrtime.bigint() as MonotonicNanoseconds,
  wall: () => new Date().toISOString() as UtcInstant,
};
// One line, one write: what the parent has read was told before the kill.
const tell = (line: string) => process.stdout.write(`${line}\n`);

const journal = await openJournal({
  folder,
  port: nodeJournalPort,
  clock,
  session: `kill-${seed}`,
  header: encodedHeader(4, 5000, clock.monotonic()),
  segmentBytes: 16_384 + draw.below(200_000),
  syncEvery: 0.005 + draw.unit() * 0.02,
  reserveBytes: 65_536,
  onConfirmed: ({ sample }) => tell(`safe ${sample}`),
});
tell(`capture ${journal.capture}`);
let next = 0;
let marks = 0;
setInterval(() => {
  for (let i = 0; i < 5; i++) {
    const count = 1 + draw.below(10);
    journal.append(encodedSamples(next, count, 4, clock.monotonic()));
    next += count;
  }
  if (!draw.chance(0.1)) return;
  const label = `m${marks++}`;
  void journal
    .mark({ kind: 'mark', sample: next, label, at: clock.monotonic() })
    .then(({ complete }) => complete && tell(`mark ${label}`));
}, 1);
