import { join } from 'node:path';
import { listCaptures, nodeJournalPort, type Packet, readCapture, reportOf } from '@sthene/capture';
import type { DayPlan } from '@sthene/contract';
import { defaultMethod, isJumpMethod, type TrialResult, usualProtocol } from '@sthene/core';
import { expect } from 'vitest';
import { replay } from '../../src/live/replay.ts';
import { inputLabel } from '../../src/live/rig/inputs.ts';
import { withStore } from './analysed-again.ts';

const plain = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

/**
 * Runs every journalled capture of a finished day again: the engines mark the same things at the same samples, and every stored
 * result, reviews included, is what the replay says in the end.
 */
export async function expectSameReplayed(data: string, trials: number): Promise<void> {
  const folder = join(data, 'lab', 'journal');
  await withStore(data, async (store) => {
    const [day] = await store.days.list();
    const settings = day?.settings as { handsFree: boolean };
    const { items } = await store.sessions.list({ limit: 50 });
    const gravity = items[0]?.session.gravity ?? 0;
    const seen = new Map<string, TrialResult>();
    for (const capture of await listCaptures(nodeJournalPort, folder)) {
      const packets: Packet[] = [];
      for await (const packet of readCapture(nodeJournalPort, folder, capture)) packets.push(packet);
      const [first] = await store.origins.ofCapture(await sessionOf(folder, capture));
      const sha = first && (await store.results.current(first.trial))?.document.method.sha256;
      const recipe = sha === undefined ? undefined : (await store.methods.get(sha))?.document;
      // A jump is judged by its own recipe, which follows from the test.
      const method = recipe !== undefined && isJumpMethod(recipe) ? defaultMethod : recipe;
      if (method === undefined) continue;
      const marked: unknown[] = [];
      const plans = ((day?.plans ?? []) as DayPlan[]).map((plan) => ({ ...plan, document: usualProtocol(plan.test) }));
      for await (const { output } of replay(packets, { plans, method, gravity, handsFree: settings.handsFree })) {
        if (output.kind === 'mark') marked.push(plain({ label: output.label, sample: output.at, data: output.data }));
        if (output.kind !== 'trial-closed' && output.kind !== 'trial-reviewed') continue;
        seen.set(`${await sessionOf(folder, capture)} ${output.trial.span.start}`, plain(output.trial.result));
      }
      const journalled = packets.flatMap((packet) =>
        packet.kind === 'mark' && packet.label !== inputLabel && !packet.label.startsWith('station-')
          ? [plain({ label: packet.label, sample: packet.sample, data: packet.data })]
          : [],
      );
      expect(marked).toEqual(journalled);
      expect(marked.length).toBeGreaterThan(20);
    }
    let compared = 0;
    for (const { session } of items)
      for (const trial of await store.trials.ofSession(session.id)) {
        const origin = await store.origins.ofTrial(trial.id);
        const again = seen.get(`${origin?.capture} ${origin?.span.start}`);
        expect(again, trial.id).toEqual((await store.results.current(trial.id))?.document);
        compared++;
      }
    expect(compared).toBe(trials);
  });
}

async function sessionOf(folder: string, capture: string): Promise<string> {
  return (await reportOf(nodeJournalPort, folder, capture)).session ?? '';
}
