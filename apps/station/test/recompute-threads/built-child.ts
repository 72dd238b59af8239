// Judges a lab in threads and in one thread, built as the station is, and says on stdout whether both made the same.
import { methodRegistry } from '@sthene/core';
import { inThisThread } from '../../src/work/recompute/judging/in-this-thread.ts';
import type { Judges } from '../../src/work/recompute/judging/judges.ts';
import { Ordering } from '../../src/work/recompute/judging/orders-of.ts';
import { JudgingThreads } from '../../src/work/recompute/judging/threads.ts';
import { Recomputing } from '../../src/work/recompute/recomputing.ts';
import { startRun } from '../../src/work/recompute/runs.ts';
import { withLab } from '../filled-lab.ts';

const [folder = ''] = process.argv.slice(2);
await withLab(folder, async (lab) => {
  const method = methodRegistry.get('fixed-75')?.method;
  if (method === undefined) throw new Error('no such method');
  const { id } = await startRun(lab, new Recomputing(lab, () => true), { method: 'fixed-75', by: 'Rowan' });
  const due = await lab.store.recomputations.pending(id, 1_000);
  const bases = await lab.store.recomputations.bases(due.map(({ trial }) => trial));
  const { orders } = await new Ordering(lab, method).of(bases);
  const through = async (judges: Judges) => {
    const made = await Promise.all(orders.map(({ order }) => judges.judge(order)));
    await judges.close();
    return made;
  };
  const alone = await through(inThisThread((sha256) => lab.store.files.get(sha256)));
  const threads = new JudgingThreads(new URL('./thread.js', import.meta.url), lab.folder, 2);
  threads.hold(true);
  const held = through(threads);
  const quiet = await Promise.race([
    held.then(() => false),
    new Promise((resolve) => setTimeout(() => resolve(true), 1_000)),
  ]);
  threads.hold(false);
  const same = JSON.stringify(await held) === JSON.stringify(alone);
  const failed = alone.flat().flatMap((one) => ('code' in one ? [one.code] : []));
  process.stdout.write(JSON.stringify({ trials: due.length, same, quiet, failed }));
});
process.exit(0);
