import { spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { nodeJournalPort, readJournal } from '@sthene/capture';
import { type Campaign, must } from '../campaign.ts';
import { allOf, drawFrom } from '../ports.ts';
import { killChildScript } from './kill.ts';

const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** A real process is stopped and goes on. */
export const freeze: Campaign = {
  promise: 9,
  name: 'freeze',
  claim: 'a station that stood still is seen as such, with the duration, not as silence',
  rounds: { short: 2, full: 40 },
  async unavailable() {
    return process.platform === 'win32' ? 'needs signals that stop a process' : undefined;
  },
  async round(seed) {
    const draw = drawFrom(seed);
    const folder = await mkdtemp(join(tmpdir(), 'sthene-freeze-'));
    const child = spawn(process.execPath, [await killChildScript(), folder, String(seed)], {
      stdio: ['ignore', 'pipe', 'ignore'],
    });
    const gone = new Promise((resolve) => child.once('close', resolve));
    try {
      await new Promise((resolve) => child.stdout.once('data', resolve));
      child.stdout.resume();
      await wait(300);
      // Most freezes are short; one in ten lasts many seconds.
      const seconds = draw.chance(0.1) ? 5 + draw.unit() * 20 : 0.25 + draw.unit() * 1.5;
      const began = performance.now();
      child.kill('SIGSTOP');
      await wait(seconds * 1000);
      child.kill('SIGCONT');
      const stood = (performance.now() - began) / 1000;
      await wait(300);
      child.kill('SIGKILL');
      await gone;
      const packets = await allOf(readJournal(nodeJournalPort, folder));
      const found = packets.flatMap((packet) =>
        packet.kind === 'mark' && packet.label === 'station-stood-still'
          ? [(packet.data as { seconds: number }).seconds]
          : [],
      );
      const fits = found.some((said) => Math.abs(said - stood) < 0.15);
      must(fits, `stood still for ${stood.toFixed(3)} s, the journal says ${found.join(', ') || 'nothing'}`);
      return { seconds };
    } finally {
      child.kill('SIGKILL');
      await gone;
      await rm(folder, { recursive: true, force: true });
    }
  },
};
