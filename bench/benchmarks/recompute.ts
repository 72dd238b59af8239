import type { Bench, Benchmark, Finding } from '../benchmark.ts';
import { buildStationPackage } from '../build.ts';
import { runNode } from '../child.ts';
import { atLeast } from '../goal.ts';
import { megabytes, time, times } from '../numbers.ts';
import { writePulls } from '../pulls.ts';
import { alternate, median } from '../rounds.ts';

interface Again {
  /** ms from asking for the run to its being finished. */
  readonly work: number;
  readonly done: number;
  readonly failed: number;
  /** ms of the comparison of every value, and of adopting. */
  readonly comparing: number;
  readonly adopting: number;
  /** Largest resident memory, bytes. */
  readonly memory: number;
}

/** Trials that share a file in the large archive, so that it fits on a disk. */
const shared = 100;

/** Every trial of a lab under another method, against a script that analyses the same files again. */
export const recompute: Benchmark = {
  id: 'i',
  page: 'archive',
  title: 'Judge an archive again',
  compared:
    'Simulated pulls of 10 s at 1 kHz on two plates as text files, imported into a lab. Our side is the run of `sthene recompute`: each trial ' +
    'read from its file, judged with its decisions, kept as a candidate with its values in transactions of 25, so that a kill loses nothing. ' +
    'The other is a script over the same files that reads and analyses each with the same program and keeps nothing (`bench/work/files.mjs`). ' +
    'Timed inside each process.',
  run,
};

async function run({ quick, folder, trials }: Bench): Promise<Finding> {
  buildStationPackage();
  const files = quick ? 40 : 1000;
  const bytes = writePulls(`${folder}/files`, files);
  const own = `${folder}/own`;
  await runNode('archive', ['make', own, `${folder}/files`, files, files]);
  const methods = ['five-sd', 'fixed-75', 'low-pass-50'];
  let round = 0;
  const sides = await alternate(quick ? 2 : 3, {
    again: () => runNode<Again>('archive', ['again', own, methods[round++ % methods.length] as string]),
    script: () => runNode<{ readonly work: number }>('files', [`${folder}/files`, 1]),
  });
  const ours = median(sides.again.map(({ said }) => said.work));
  const script = median(sides.script.map(({ said }) => said.work));
  for (const { said } of sides.again)
    if (said.done !== files || said.failed > 0) throw new Error(`${said.done} of ${files} trials were judged.`);
  const ratio = script / ours;
  const large = `${folder}/large`;
  await runNode('archive', ['make', large, `${folder}/files`, Math.max(1, Math.ceil(trials / shared)), trials]);
  const { said: all } = await runNode<Again>('archive', ['again', large, 'fixed-75']);
  if (all.done !== trials) throw new Error(`${all.done} of ${trials} trials were judged.`);
  return {
    ok: true,
    report: {
      rows: [
        {
          what: `${files} trials, each with a file of its own (${megabytes(bytes)})`,
          ours: time(ours),
          instead: time(script),
          ratio: times(ratio),
          goal: atLeast(0.5, ratio, 'at least half as fast as analysing alone'),
          because: `A trial takes ${time(ours / files)}; reading and analysing alone takes the script ${time(script / files)}. The rest is keeping: a result document, its values as rows, an audit entry, and a sync for every 25.`,
        },
        {
          what: `${trials} trials, ${shared} a file`,
          ours: time(all.work),
          instead: '',
          ratio: `${((1000 * all.done) / all.work).toFixed(1)} a second`,
        },
        { what: 'comparing every value of these', ours: time(all.comparing), instead: '', ratio: '' },
        { what: 'adopting these', ours: time(all.adopting), instead: '', ratio: '' },
      ],
      notes: [
        `A trial takes ${time(ours / files)} in the small archive and ${time(all.work / trials)} in the large one; there a file is read once for ${shared} trials.`,
        `The largest memory of the process over the large archive was ${megabytes(all.memory)}.`,
        'Adopting is one transaction that asks once more whether any trial is still due; its time grows with the archive and is the only one in which writers wait.',
      ],
    },
  };
}
