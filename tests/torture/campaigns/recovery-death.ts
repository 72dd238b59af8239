import { readJournal, recover } from '@sthene/capture';
import { type Campaign, must } from '../campaign.ts';
import {
  allOf,
  checkEncoded,
  drawFrom,
  encodedSamples,
  FaultPort,
  folder,
  MemoryDisk,
  openTestJournal,
} from '../ports.ts';

/** Several captures that ended badly, one closed well. */
async function wreckedFolder(seed: number): Promise<MemoryDisk> {
  const draw = drawFrom(seed);
  const disk = new MemoryDisk();
  for (let capture = 0; capture < 3; capture++) {
    const { journal, clock } = await openTestJournal(disk, { segmentBytes: 4096 });
    for (let i = 0; i < 40 + draw.below(40); i++) {
      journal.append(encodedSamples(i * 5, 5));
      await clock.pass(0.02);
    }
    if (capture === 1) await journal.close();
  }
  const after = disk.afterPowerCut(draw);
  for (const [path, bytes] of after.files()) {
    if (!draw.chance(0.4)) continue;
    const at = draw.below(bytes.length);
    bytes.fill(draw.below(256), at, at + draw.below(200));
    after.place(path, bytes);
  }
  return after;
}

const segmentsOf = (disk: MemoryDisk) =>
  [...disk.files()].filter(([name]) => name.endsWith('.journal')).map(([name, bytes]) => [name, hexOf(disk, bytes)]);
const sealsOf = (disk: MemoryDisk) =>
  [...disk.files()]
    .filter(([name]) => name.includes('.seal'))
    .map(([name, bytes]) => [name, hexOf(disk, bytes)])
    .sort();

function hexOf(disk: MemoryDisk, bytes: Uint8Array): string {
  const hash = disk.sha256();
  hash.update(bytes);
  return hash.hex();
}

function copyOf(disk: MemoryDisk): MemoryDisk {
  const copy = new MemoryDisk();
  for (const [path, bytes] of disk.files()) copy.place(path, bytes);
  return copy;
}

/** Recovery dies at every call in turn, by a kill or a power cut, and is run again until it comes through. */
export const recoveryDeath: Campaign = {
  promise: 4,
  name: 'recovery-death',
  claim: 'recovery is idempotent, survives its own death at every act, and leaves the original alone',
  rounds: { short: 8, full: 300 },
  async round(seed) {
    const wreck = await wreckedFolder(seed);
    const originals = segmentsOf(wreck);
    const calm = copyOf(wreck);
    const counting = new FaultPort(calm);
    const wanted = await recover(counting, folder);
    must(wanted.length > 0, 'nothing to recover');
    must(
      wanted.every(({ sealed }) => sealed),
      'a finding was not kept',
    );
    const seals = sealsOf(calm);
    let deaths = 0;
    for (let at = 0; at < counting.calls.length; at++) {
      for (const powerCut of [false, true]) {
        const draw = drawFrom(seed * 1000 + at);
        let disk = copyOf(wreck);
        // Dies at this call, and once more during the second attempt.
        for (const deadline of [at, draw.below(counting.calls.length), Number.POSITIVE_INFINITY]) {
          const port = new FaultPort(disk, ({ index }) =>
            index === deadline ? { kind: 'die', share: draw.unit() } : undefined,
          );
          const got = await recover(port, folder).catch(() => undefined);
          if (port.dead) {
            deaths++;
            if (powerCut) disk = disk.afterPowerCut(draw);
            continue;
          }
          must(JSON.stringify(got) === JSON.stringify(wanted), `call ${at}: another result than undisturbed`);
        }
        must(JSON.stringify(segmentsOf(disk)) === JSON.stringify(originals), `call ${at}: an original was changed`);
        must(JSON.stringify(sealsOf(disk)) === JSON.stringify(seals), `call ${at}: another seal than undisturbed`);
        const again = await recover(disk, folder);
        must(JSON.stringify(again) === JSON.stringify(wanted), `call ${at}: another result when run again`);
      }
    }
    const { wrong } = checkEncoded(
      (await allOf(readJournal(calm, folder, wanted[0]?.capture as string))).filter(({ kind }) => kind !== 'header'),
    );
    must(wrong === undefined, `${wrong}`);
    return { deaths, recovered: wanted.length };
  },
};
