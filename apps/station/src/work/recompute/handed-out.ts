import type { HandedOutOfRun } from '@sthene/contract';
import { type Reference, references } from '@sthene/core/stats';
import { decimalsFor } from '@sthene/report';
import type { HandedOut } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { circumstancesOf, labHistory, withNoise } from '../athlete/history.ts';
import { judge } from '../athlete/judge.ts';
import { metricOf } from '../athlete/metrics.ts';
import { squadsOf } from '../athlete/tests-of-athlete.ts';
import { readFollowRules } from '../follow/rules.ts';
import { nameOf } from '../people.ts';

const most = 200;

/**
 * Pages that were handed out and would read differently under a run: the newest page of each athlete, session and value is judged again
 * up to the session it was of, with the run's candidates in force. Those whose word changes come first.
 */
export async function handedOutOfRun(lab: OpenLab, run: string): Promise<HandedOutOfRun> {
  const pages = newestOf(await lab.store.handedOut.list());
  const people = new Map((await lab.store.people.list()).map((one) => [one.id, one]));
  const rules = await readFollowRules(lab);
  const rows: HandedOutOfRun['rows'] = [];
  for (const page of pages) {
    const person = people.get(page.person);
    const definition = metricOf(page.metric, page.test);
    if (person === undefined || definition === undefined) continue;
    const squads = await squadsOf(lab, page.person);
    const history = await withNoise(lab, await labHistory(lab, page.test, definition, page.person, run), squads);
    const all = history.everyone.filter((one) => one.person === page.person);
    const own = all.slice(0, all.findIndex(({ session }) => session === page.session) + 1);
    const now = own.at(-1);
    const reference: Reference = references.find((one) => one === page.reference) ?? 'last';
    const { changes } = judge(history, own, await circumstancesOf(lab, own), rules, [reference]);
    const word = changes[0]?.word;
    // The same as it is printed.
    const digits = decimalsFor(page.unit, page.value);
    const kept = now?.value !== undefined && now.value.toFixed(digits) === page.value.toFixed(digits);
    const reads = word !== page.word || now?.value === undefined ? 'another-word' : kept ? 'alike' : 'another-number';
    rows.push({
      ...{ id: page.id, at: page.at, kind: page.kind, test: page.test, session: page.session },
      person: { id: person.id, name: nameOf(person), code: person.code },
      metric: { id: definition.id, title: definition.title, unit: page.unit, better: definition.better },
      scale: history.scale,
      was: { value: page.value, ...(page.word === undefined ? {} : { word: page.word }) },
      now: { ...(now?.value === undefined ? {} : { value: now.value }), ...(word === undefined ? {} : { word }) },
      reads,
    });
  }
  const order = ['another-word', 'another-number', 'alike'];
  const sorted = rows.toSorted((a, b) => order.indexOf(a.reads) - order.indexOf(b.reads) || b.at.localeCompare(a.at));
  return {
    pages: rows.length,
    otherWord: rows.filter(({ reads }) => reads === 'another-word').length,
    otherNumber: rows.filter(({ reads }) => reads === 'another-number').length,
    rows: sorted.filter(({ reads }) => reads !== 'alike').slice(0, most),
  };
}

/** Of pages that say the same thing of the same session the newest: the older one has been replaced in somebody's hands. */
function newestOf(pages: readonly HandedOut[]): readonly HandedOut[] {
  const found = new Map<string, HandedOut>();
  for (const page of pages)
    found.set([page.kind, page.person, page.session, page.metric, page.reference].join(' '), page);
  return [...found.values()];
}
