import { availableParallelism } from 'node:os';
import type { Bench, Benchmark, Finding, Row } from '../benchmark.ts';
import { buildStationPackage } from '../build.ts';
import { runNode } from '../child.ts';
import { atLeast, atMost } from '../goal.ts';
import { killedRun } from '../killed-run.ts';
import { kilobytes, megabytes, time, times } from '../numbers.ts';
import { writePulls } from '../pulls.ts';
import { alternate, median } from '../rounds.ts';

interface Again {
  /** ms from asking for the run to its being finished, and of processor time of all threads. */
  readonly work: number;
  readonly cpu: number;
  readonly done: number;
  readonly failed: number;
  /** ms of the comparison of every value, and of adopting. */
  readonly comparing: number;
  readonly adopting: number;
  /** Largest resident memory, bytes. */
  readonly memory: number;
}

interface Check {
  readonly done: number;
  readonly twice: number;
  readonly intact: boolean;
  readonly problems: number;
}

/** ms of processor time for one trial, and bytes of its result document. */
interface Parts {
  readonly proving: number;
  readonly reading: number;
  readonly judging: number;
  readonly writing: number;
  readonly handing: number;
  readonly keeping: number;
  readonly bytes: number;
}

/** Trials that share a file in the large archive, so that it fits on a disk. */
const shared = 100;
/** Trials a second that were asked for, on two cores. */
const wanted = 4_000;

/** Every trial of a lab under another method, against a script that analyses the same files again. */
export const recompute: Benchmark = {
  id: 'i',
  page: 'archive',
  title: 'Judge an archive again',
  compared:
    'Simulated pulls of 10 s at 1 kHz on two plates as text files, imported into a lab. Our side is the run of `sthene recompute`: each trial ' +
    'read from its file and judged with its decisions in threads, one for each core, and kept as a candidate with its values and an entry of ' +
    'the audit trail in transactions of 250, so that a kill loses nothing. The other is a script over the same files that reads and analyses ' +
    'each with the same program in one thread and keeps nothing (`bench/work/files.mjs`). Timed inside each process.',
  run,
};

const perSecond = (trials: number, ms: number): string => `${((1000 * trials) / ms).toFixed(0)} a second`;

async function run({ quick, folder, trials }: Bench): Promise<Finding> {
  buildStationPackage();
  const files = quick ? 120 : 400;
  const bytes = writePulls(`${folder}/files`, files);
  const own = `${folder}/own`;
  await runNode('archive', ['make', own, `${folder}/files`, files, files]);
  const methods = ['five-sd', 'fixed-75', 'low-pass-50'];
  let round = 0;
  const sides = await alternate(quick ? 2 : 3, {
    again: () => runNode<Again>('archive', ['again', own, methods[round++ % methods.length] as string]),
    script: () => runNode<{ readonly work: number }>('files', [`${folder}/files`, 1]),
  });
  for (const { said } of sides.again) mustBeAll(said, files);
  const ours = median(sides.again.map(({ said }) => said.work));
  const script = median(sides.script.map(({ said }) => said.work));
  const { said: parts } = await runNode<Parts>('archive', ['parts', `${folder}/files`, 'fixed-75']);
  const ofEach = parts.proving + parts.reading + parts.judging + parts.writing + parts.handing + parts.keeping;
  const ofShared = parts.judging + parts.writing + parts.handing + parts.keeping;
  const large = await largeArchive(folder, trials);
  const spent = `processor time of a trial, measured part by part: ${partsOf(parts)}`;
  const least = (ms: number) => `two cores that did nothing else could do ${perSecond(2, ms)} at ${time(ms)}`;
  const rows: Row[] = [
    {
      what: `${files} trials, each with a file of its own (${megabytes(bytes)})`,
      ours: time(ours),
      instead: time(script),
      ratio: times(script / ours),
      goal: atLeast(0.5, script / ours, 'at least half as fast as analysing alone'),
      because: `A trial takes ${time(ours / files)}; reading and analysing alone takes the script ${time(script / files)}.`,
    },
    {
      what: 'these, trials a second',
      ours: perSecond(files, ours),
      instead: perSecond(files, script),
      ratio: '',
      goal: atLeast(wanted, (1000 * files) / ours, `at least ${wanted} a second on two cores`),
      because: `${spent}; ${least(ofEach)}.`,
    },
    ...large.rows(`${least(ofShared)}, the file being read once for ${shared} trials`),
  ];
  return {
    ok: true,
    report: {
      rows,
      notes: [
        `The ${spent}. Together ${time(ofEach)}: ${least(ofEach)}. The document of a result has ${kilobytes(parts.bytes)}, so ${wanted} trials a second would be ${megabytes(wanted * parts.bytes)} a second of documents alone, written to the log of the database and again to the database.`,
        `A short run also starts its threads and loads the program in each; that is in its time. The machine had ${availableParallelism()} cores, and the load average below says how many other things wanted them at the end.`,
        ...large.notes,
      ],
    },
  };
}

const partsOf = (parts: Parts): string =>
  `${time(parts.proving)} to load the file and prove its hash, ${time(parts.reading)} to read it, ${time(parts.judging)} to judge it, ` +
  `${time(parts.writing)} to write the result as JSON, ${time(parts.handing)} to hand it to the thread that keeps it, ` +
  `${time(parts.keeping)} to hash and keep it with its values`;

/** The large archive: a run that is killed half way, one that goes on, and what is then in the lab. */
async function largeArchive(folder: string, trials: number) {
  const large = `${folder}/large`;
  await runNode('archive', ['make', large, `${folder}/files`, Math.max(1, Math.ceil(trials / shared)), trials]);
  const killed = await killedRun(large, 'fixed-75', Math.ceil(trials / 2));
  const { said: between } = await runNode<Check>('archive', ['check', large]);
  if (between.done < killed.reported || between.done >= trials)
    throw new Error(`${between.done} trials were there after the kill, ${killed.reported} had been reported.`);
  const { said: all } = await runNode<Again>('archive', ['again', large, 'fixed-75']);
  mustBeAll(all, trials);
  const { said: after } = await runNode<Check>('archive', ['check', large]);
  for (const { twice, intact, problems } of [between, after])
    if (twice > 0 || !intact || problems > 0) throw new Error(`twice ${twice}, trail ${intact}, records ${problems}`);
  const resumed = trials - between.done;
  const rate = (1000 * resumed) / all.work;
  return {
    rows: (floor: string): Row[] => [
      {
        what: `${trials} trials, ${shared} a file; killed at ${between.done}, the other ${resumed} after it`,
        ours: time(all.work),
        instead: '',
        ratio: perSecond(resumed, all.work),
        goal: atLeast(wanted, rate, `at least ${wanted} a second on two cores`),
        because: `A trial took ${time(all.cpu / resumed)} of processor time in all threads together; ${floor}.`,
      },
      {
        what: 'largest memory of that process',
        ours: megabytes(all.memory),
        instead: '',
        ratio: '',
        goal: atMost(600e6, all.memory, 'under 600 MB'),
        because: 'Each thread has a program and a heap of its own.',
      },
      { what: `comparing every value of the ${trials}`, ours: time(all.comparing), instead: '', ratio: '' },
      { what: 'adopting them', ours: time(all.adopting), instead: '', ratio: '' },
    ],
    notes: [
      `The large archive: ${trials} trials over ${Math.ceil(trials / shared)} files. Its run was killed (SIGKILL) after ${time(killed.lived)}, when it had reported ${killed.reported} trials; ${between.done} were in the lab. The next run went on with the other ${resumed}. After both every trial had one candidate and none two, the audit trail was whole, and every record, old results among them, agreed with the hash it holds.`,
      'Adopting is one transaction that asks once more whether any trial is still due; its time grows with the archive and is the only one in which writers wait.',
    ],
  };
}

function mustBeAll({ done, failed }: Again, trials: number): void {
  if (done !== trials || failed > 0) throw new Error(`${done} of ${trials} trials were judged, ${failed} failed.`);
}
