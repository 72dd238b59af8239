import { join } from 'node:path';
import { call, followRoutes, routes } from '@sthene/contract';
import type { Bench, Benchmark, Finding, Row } from '../benchmark.ts';
import { findBrowser, openBrowser } from '../browser.ts';
import { buildStation } from '../build.ts';
import { atMost } from '../goal.ts';
import { time } from '../numbers.ts';
import { median } from '../rounds.ts';
import { fillSquadLab } from '../squad-lab.ts';
import { lookAtSquad, type SquadLook } from '../squad-page.ts';
import { startStationProcess } from '../station-process.ts';

/** What the list of everybody may take, from the touch that asks for it to a screen full of rows painted. */
const limit = 300;

/** The pages over many athletes in a large lab. */
export const squadScreen: Benchmark = {
  id: 'k',
  page: 'files',
  title: 'Everybody of a large lab',
  compared:
    'A lab of many athletes over ten seasons (three sessions a season, two trials a session; results without curves), the built ' +
    'station in a process of its own on SQLite, asked over HTTP. "First" is right after a start, when nothing has been worked out ' +
    'yet: values are read and the mixed model is fitted over all sessions; then the same after something was kept ' +
    'in the lab, so that the list is worked out anew, and where a value became another the model is fitted anew; "again" is any further look. Then the page itself in Chromium without a window and ' +
    'without a graphics card, 1440 by 900, the station warm: opened with an empty cache, come to from another page, sorted by its value ' +
    'and filtered by a typed figure, each until the frame that shows it was painted. The goal is absolute.',
  run,
};

/** Decisions about a trial, by turns. */
const [leftOut, takenBack] = [
  { kind: 'exclude', category: 'other', reason: 'The bar slipped.', by: 'Rowan' },
  { kind: 'restore', reason: 'It did not.', by: 'Rowan' },
] as const;

async function run({ quick, folder }: Bench): Promise<Finding> {
  const size = { athletes: quick ? 100 : 500, seasons: 10 };
  const data = join(folder, 'data');
  const web = join(folder, 'web');
  buildStation(web);
  const { sessions, trials, trial } = await fillSquadLab(data, size);
  const station = await startStationProcess(data, web);
  const executable = findBrowser();
  const params = { lab: 'lab' } as const;
  const ask = {
    squad: () => call(fetch, station.address, routes.squadTable, { params, query: {} }),
    today: () => call(fetch, station.address, followRoutes.today, { params, query: { on: '2025-11-01' } }),
  };
  const took = async (act: () => Promise<unknown>) => {
    const began = performance.now();
    await act();
    return performance.now() - began;
  };
  try {
    const first = await took(ask.squad);
    const [again, today]: [number[], number[]] = [[], []];
    for (let i = 0; i < 7; i++) {
      again.push(await took(ask.squad));
      today.push(await took(ask.today));
    }
    const [written, decided]: [number[], number[]] = [[], []];
    for (let i = 0; i < 3; i++) {
      const body = { givenName: 'Late', familyName: `Comer ${i}` };
      await call(fetch, station.address, routes.createPerson, { params, body });
      written.push(await took(ask.squad));
      const draft = i % 2 === 0 ? leftOut : takenBack;
      await call(fetch, station.address, routes.decide, { params: { ...params, id: trial }, body: draft });
      decided.push(await took(ask.squad));
    }
    const table = await ask.squad();
    if (table.rows.length !== size.athletes + 3) throw new Error(`${table.rows.length} rows came back.`);
    if (!table.rows.slice(0, 9).some(({ change }) => change !== undefined)) throw new Error('Nobody was judged.');
    const middle = median(again);
    const row = (what: string, ms: number) => ({ what, ours: time(ms), instead: '', ratio: '' });
    return {
      ok: true,
      report: {
        rows: [
          row(`${size.athletes} athletes, list of everybody: first`, first),
          row('the same after somebody was added (median of 3)', median(written)),
          row('the same after a trial was left out or taken back (median of 3)', median(decided)),
          row('the same again (median of 7)', middle),
          row('Today: at most five rows out of as many (median of 7)', median(today)),
          ...(executable === undefined
            ? []
            : await onScreen(executable, station.address, table.rows.length, quick ? 2 : 5, middle)),
        ],
        notes: [
          `${size.athletes} athletes, ${sessions} sessions, ${trials} trials with one value each.`,
          ...(executable === undefined
            ? ['There is no Chromium on this machine: the page itself was not looked at, and the goal not judged.']
            : []),
        ],
      },
    };
  } finally {
    await station.stop();
  }
}

/** The page in a browser. */
async function onScreen(
  executable: string,
  station: string,
  athletes: number,
  rounds: number,
  answer: number,
): Promise<Row[]> {
  const browser = await openBrowser(executable);
  const looks: SquadLook[] = [];
  try {
    for (let i = 0; i < rounds; i++) looks.push(await lookAtSquad(browser, station, athletes));
  } finally {
    await browser.close();
  }
  const of = (what: keyof SquadLook) => median(looks.map((look) => look[what]));
  const row = (what: string, ms: number): Row => ({ what, ours: time(ms), instead: '', ratio: '' });
  const come = of('come');
  return [
    row(`the page opened with an empty cache: first paint (median of ${rounds})`, of('paint')),
    row('the same: every row painted', of('rows')),
    {
      ...row('come to from another page: a screen full of rows painted', come),
      goal: atMost(limit, come, `under ${limit} ms`),
      because: `The station answers in ${time(answer)}; the rest is reading the answer and painting.`,
    },
    row('the same: every row painted', of('comeAll')),
    row('sorted by value: rows painted in their order', of('sort')),
    row('filtered by a typed figure: the rows that are left painted', of('filter')),
  ];
}
