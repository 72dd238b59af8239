// A child of the recomputation campaign: opens a lab and goes on with its run, then adopts or discards it. Tells each step on stdout;
// killed by the parent at any instant.
import { methodRegistry } from '@sthene/core';
import { Recomputing } from '../../../apps/station/src/work/recompute/recomputing.ts';
import { adoptRun, discardRun, resumeRun, startRun } from '../../../apps/station/src/work/recompute/runs.ts';
import { withLab } from '../../../apps/station/test/filled-lab.ts';

const [folder = '', end = 'adopt'] = process.argv.slice(2);
const by = 'Rowan';
const reason = 'Agreed.';

await withLab(folder, async (lab) => {
  const work = new Recomputing(lab);
  const method = methodRegistry.get('fixed-75')?.id ?? '';
  const known = (await lab.store.recomputations.list())[0];
  process.stdout.write('begin\n');
  const run = known ?? (await startRun(lab, work, { method, by }));
  if (run.state === 'running') await resumeRun(lab, work, run.id, by);
  await work.idle();
  process.stdout.write('end\n');
  const state = (await lab.store.recomputations.get(run.id))?.state;
  if (state === 'finished' && end === 'adopt')
    await adoptRun(lab, work, run.id, { by, reason, measuring: () => false });
  if (state === 'finished' && end === 'discard') await discardRun(lab, run.id, by, reason);
});
process.stdout.write('done\n');
