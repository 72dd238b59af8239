import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { listCaptures, nodeJournalPort, reportOf, virtualDescription } from '@sthene/capture';
import { toStation } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { receive } from '../../src/live/commands.ts';
import { type Client, type Socket, usualLimits } from '../../src/live/hub/client.ts';
import { lockstepPorts } from './lockstep.ts';
import { type StationCore, stationCore } from './station-core.ts';

/** One who looks on: reads at once, or has fallen asleep. */
class Spectator implements Socket {
  bufferedAmount = 0;
  most = 0;
  stalled: boolean;
  closed: number | undefined;
  readonly types: { readonly type: string; readonly sequence: number; readonly trial?: string }[] = [];
  #waiting: { readonly data: string; readonly sent: (error?: Error) => void }[] = [];
  constructor(stalled: boolean) {
    this.stalled = stalled;
  }
  send(data: string, _soon: boolean, sent: (error?: Error) => void): void {
    this.bufferedAmount += data.length;
    this.most = Math.max(this.most, this.bufferedAmount);
    this.#waiting.push({ data, sent });
    if (!this.stalled) queueMicrotask(() => this.read());
  }
  read(): void {
    for (let first = this.#waiting.shift(); first !== undefined; first = this.#waiting.shift()) {
      const { type, sequence, verdict } = JSON.parse(first.data);
      this.types.push({ type, sequence, ...(verdict === undefined ? {} : { trial: verdict.trial }) });
      this.bufferedAmount -= first.data.length;
      first.sent();
    }
  }
  close(code: number): void {
    this.closed = code;
  }
  terminate(): void {
    this.closed = 0;
  }
  get trials(): (string | undefined)[] {
    return this.types.filter(({ type }) => type === 'verdict').map(({ trial }) => trial);
  }
}

describe('20 spectators: five stalled, two coming and going, one hostile', () => {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-spectators-'));
  let core: StationCore;
  let samples = 0;
  const good: Spectator[] = [];
  const stalled: Spectator[] = [];
  const hostile = new Spectator(false);
  let comings = 0;

  beforeAll(async () => {
    writeFileSync(join(folder, 'people.txt'), 'Wren,Alder,FW01\nHeron,Birch,FW02\n');
    core = await stationCore(
      join(folder, 'data'),
      {
        sources: [virtualDescription('Virtual plates', 'fernwater-three', 7)],
        handsFree: true,
        people: join(folder, 'people.txt'),
        plan: { efforts: [{ kind: 'maximal' }], rest: { minimum: 20, maximum: 600 } },
      },
      lockstepPorts(),
    );
    const { live } = core;
    const join20 = (socket: Spectator, name: string, role: 'viewer' | 'operator' = 'viewer'): Client =>
      live.join({ id: name, name, role, by: 'Rowan' }, socket);
    for (let i = 0; i < 12; i++) join20(good[good.push(new Spectator(false)) - 1] as Spectator, `good-${i}`);
    for (let i = 0; i < 5; i++) join20(stalled[stalled.push(new Spectator(true)) - 1] as Spectator, `stalled-${i}`);
    let last: Client[] = [];
    const coming = setInterval(() => {
      for (const one of last) live.leave(one);
      last = [0, 1].map((i) => join20(new Spectator(comings % 2 === 0), `coming-${i}`));
      comings += 2;
    }, 20);
    const enemy = join20(hostile, 'hostile');
    const attacking = setInterval(() => {
      for (const kind of ['abort', 'pain', 'hold', 'finish', 'begin', 'cue'] as const)
        void receive(
          live,
          enemy,
          toStation.parse({
            type: 'command',
            id: 'x',
            kind,
            rig: [...live.rigs.keys()][0] ?? '',
            turn: [...live.turns.values()][0]?.view.id ?? 'none',
            phase: 'ready',
            at: Number.MAX_SAFE_INTEGER,
            expires: 1000,
          }),
        );
      void receive(live, enemy, { type: 'take-controls' });
    }, 5);
    await core.until(() => core.of('verdict').length >= 2, 150);
    clearInterval(coming);
    clearInterval(attacking);
    samples = [...live.rigs.values()][0]?.runtime.stream.next ?? 0;
  }, 200_000);
  afterAll(async () => {
    await core?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('lose no sample', async () => {
    await core.close();
    const journal = join(folder, 'data', 'lab', 'journal');
    const [capture = ''] = await listCaptures(nodeJournalPort, journal);
    const report = await reportOf(nodeJournalPort, journal, capture);
    expect(report.whole).toBe(true);
    expect(report.counts.missing).toBe(0);
    expect(report.counts.endSample).toBeGreaterThanOrEqual(samples);
    expect(samples).toBeGreaterThan(30_000);
  });

  it('bring every effort to an end that nobody disturbed', () => {
    expect(core.of('verdict').map(({ verdict }) => verdict.verdict)).toEqual(['counts', 'counts']);
    expect(core.of('verdict').flatMap(({ verdict }) => verdict.reasons.map(({ check }) => check))).not.toContain(
      'aborted',
    );
    // A viewer is refused whatever it asks, and holds no controls.
    expect(hostile.types.filter(({ type }) => type === 'refused').length).toBeGreaterThan(20);
    expect(hostile.types.some(({ type }) => type === 'accepted')).toBe(false);
    expect(core.live.controls.view).toEqual({});
  });

  it('keep bounded queues', () => {
    for (const one of [...good, ...stalled, hostile]) expect(one.most).toBeLessThanOrEqual(usualLimits.bytes);
    expect(comings).toBeGreaterThan(20);
    // Who left is forgotten.
    expect(core.live.hub.clients.size).toBeLessThanOrEqual(22);
  });

  it('skip where they are slow, and are never misled: a fresh snapshot, then every result', () => {
    const wanted = core.of('verdict').map(({ verdict }) => verdict.trial);
    for (const one of good) {
      expect(one.trials).toEqual(wanted);
      const numbers = one.types.map(({ sequence }) => sequence);
      expect(numbers).toEqual(numbers.map((_, i) => i + 1));
    }
    for (const one of stalled) {
      one.stalled = false;
      one.read();
      const behind = one.types.findIndex(({ type }) => type === 'behind');
      expect(behind).toBeGreaterThan(0);
      expect(one.types[behind + 1]?.type).toBe('snapshot');
      expect(one.trials).toEqual(wanted);
    }
  });
});
