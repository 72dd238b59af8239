import type { NearestRequest } from '@sthene/contract';
import type { Person, Trial } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { nameOf } from '../people.ts';
import type { TableLine } from './lines.ts';

type Columns = NearestRequest['columns'];

/** Finds the trial each line of a table speaks of: by its id, by its file, or by person and day. A word says why there is none. */
export async function matcher(
  lab: OpenLab,
  columns: Columns,
): Promise<(line: TableLine) => Promise<string | { why: string }>> {
  const cell = ({ cells }: TableLine, column: string | undefined) =>
    column === undefined ? '' : (cells[column] ?? '').trim();
  if (columns.trial !== undefined)
    return async (line) => {
      const id = cell(line, columns.trial);
      return (await lab.store.trials.get(id)) === undefined ? { why: `there is no trial "${id}"` } : id;
    };
  if (columns.file !== undefined) {
    const files = new Map<string, string[]>();
    for (const { fileName, sha256 } of await lab.store.recordings.list())
      files.set(fileName, [...(files.get(fileName) ?? []), sha256]);
    return async (line) => {
      const name = cell(line, columns.file);
      const trials = (
        await Promise.all((files.get(name) ?? []).map((one) => lab.store.trials.ofRecording(one)))
      ).flat();
      const label = cell(line, columns.label);
      return single(
        trials.filter((trial) => label === '' || trial.recordingLabel === label),
        `the file "${name}"`,
      );
    };
  }
  if (columns.person === undefined || columns.date === undefined)
    throw problems.invalid('Name the column of the trial, of the file, or those of person and day.');
  const people = await lab.store.people.list();
  return async (line) => {
    const who = cell(line, columns.person);
    const day = cell(line, columns.date).slice(0, 10);
    const person = people.find((one) => isCalled(one, who));
    if (person === undefined) return { why: `nobody is called "${who}"` };
    if (!/^\d{4}-\d\d-\d\d$/u.test(day) || Number.isNaN(Date.parse(day)))
      return { why: `"${cell(line, columns.date)}" is no day; write it like 2026-01-14` };
    const order = cell(line, columns.order);
    const trials = (await trialsOn(lab, person, day)).filter((one) => order === '' || String(one.position) === order);
    return single(trials, `${who} on ${day}${order === '' ? '' : `, trial ${order}`}`);
  };
}

const isCalled = (person: Person, who: string): boolean =>
  person.code === who || nameOf(person).toLowerCase() === who.toLowerCase();

async function trialsOn(lab: OpenLab, { id: person }: Person, day: string): Promise<Trial[]> {
  const until = new Date(Date.parse(day) + 86_400_000).toISOString();
  const { items } = await lab.store.sessions.list({ person, from: `${day}T00:00:00.000Z`, until, limit: 20 });
  const trials = (await Promise.all(items.map(({ session }) => lab.store.trials.ofSession(session.id)))).flat();
  return trials.filter(({ effort }) => effort === 'maximal');
}

function single(trials: readonly Trial[], what: string): string | { why: string } {
  const [first, second] = trials;
  if (first === undefined) return { why: `there is no trial of ${what}` };
  if (second !== undefined)
    return { why: `there are ${trials.length} trials of ${what}; add a column that tells them apart` };
  return first.id;
}
