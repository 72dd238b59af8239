import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { seededRandom } from '@sthene/core';
import type { Bench, Benchmark, Finding } from '../benchmark.ts';
import { findR, runNode, runR } from '../child.ts';
import { time, times } from '../numbers.ts';
import { alternate, median } from '../rounds.ts';

interface Fit {
  readonly work: number;
  readonly residual: number;
}

/** How far the two may differ: both stop their search before the last digit. */
const tolerance = 1e-4;

/** The mixed model behind a squad's typical error, against lme4. */
export const statistics: Benchmark = {
  id: 'l',
  page: 'files',
  title: 'The noise of a squad',
  compared:
    'A linear mixed model with a level and a slope of each athlete (REML), fitted to the same simulated sessions on one core: ours in plain ' +
    'node, and lmer of lme4 in R, each fitted once before the clock starts. Time is that of one fit, without starting either.',
  run,
};

async function run({ quick, folder }: Bench): Promise<Finding> {
  const r = findR();
  if (r === undefined) return { ok: false, reason: 'no R with lme4 and jsonlite' };
  mkdirSync(folder, { recursive: true });
  const sizes = quick ? [12] : [12, 100, 500];
  const rows = [];
  const notes: string[] = [];
  for (const people of sizes) {
    const file = join(folder, `squad-${people}.json`);
    writeFileSync(file, JSON.stringify(squad(people, 30)));
    const passes = people > 100 ? 2 : 10;
    const runs = await alternate(3, {
      ours: () => runNode<Fit>('mixed', [file, passes]),
      lme4: () => runR<Fit>(r, 'mixed', [file, passes]),
    });
    const [a, b] = [runs.ours[0]?.said.residual ?? 0, runs.lme4[0]?.said.residual ?? Number.NaN];
    if (!(Math.abs(a / b - 1) < tolerance)) throw new Error(`The residual SD is ${a} here and ${b} in R.`);
    const middle = (list: readonly { said: Fit }[]) => median(list.map(({ said }) => said.work));
    const [ours, theirs] = [middle(runs.ours), middle(runs.lme4)];
    const what = `${people} athletes, ${people * 30} sessions: one fit`;
    rows.push({ what, ours: time(ours), instead: time(theirs), ratio: times(theirs / ours) });
    notes.push(`${people} athletes: residual SD ${a.toFixed(6)} here, ${b.toFixed(6)} in lme4.`);
  }
  return { ok: true, report: { rows, notes } };
}

/** Levels with SD 10, slopes with SD 2 a year, error 3, all in 100 ln x; sessions four months apart. */
function squad(people: number, sessions: number) {
  const random = seededRandom(17, 0);
  const [y, when, person]: [number[], number[], string[]] = [[], [], []];
  for (let i = 0; i < people; i++) {
    const [level, slope] = [800 + 10 * random.gaussian(), 2 * random.gaussian()];
    for (let j = 0; j < sessions; j++) {
      const years = (j - (sessions - 1) / 2) / 3;
      y.push(level + slope * years + 3 * random.gaussian());
      when.push(years);
      person.push(`P${i}`);
    }
  }
  return { y, time: when, person };
}
