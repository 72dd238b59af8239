import type { AthleteNote, AthleteNoteDraft } from '@sthene/contract';
import { metricFacts, protocolRegistry } from '@sthene/core';
import type { AthleteNote as StoredNote } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';

/** What is written down of an athlete, by day. */
export async function listNotes(lab: OpenLab, person: string): Promise<AthleteNote[]> {
  if ((await lab.store.people.get(person)) === undefined) throw problems.notFound('athlete');
  return (await lab.store.notes.list({ person })).map(noteAnswer);
}

export async function addNote(lab: OpenLab, person: string, { by, ...note }: AthleteNoteDraft): Promise<AthleteNote> {
  if ((await lab.store.people.get(person)) === undefined) throw problems.notFound('athlete');
  check(note);
  const { until, limb, test, target, ...said } = note;
  const whole = {
    ...said,
    person,
    ...(until === undefined ? {} : { until }),
    ...(limb === undefined ? {} : { limb }),
    ...(test === undefined ? {} : { test }),
    ...(target === undefined ? {} : { target }),
  };
  return noteAnswer(await lab.store.notes.add(whole, await lab.actor(by)));
}

export async function changeNote(
  lab: OpenLab,
  id: string,
  { by, revision, ...changes }: Omit<AthleteNoteDraft, 'kind'> & { readonly revision: number },
): Promise<AthleteNote> {
  check(changes);
  // What the form leaves out is meant to be empty.
  const { from, text, until, limb, test, target } = changes;
  const whole = { from, text, until, limb, test, target };
  return noteAnswer(await lab.store.notes.change(id, whole, await lab.actor(by), { expected: revision }));
}

export async function takeNoteBack(
  lab: OpenLab,
  id: string,
  { reason, by }: { readonly reason: string; readonly by: string },
): Promise<{ id: string }> {
  await lab.store.notes.change(id, { active: false }, await lab.actor(by), { reason });
  return { id };
}

function check({ test, target }: Pick<AthleteNoteDraft, 'test' | 'target'>): void {
  if (test !== undefined && protocolRegistry.get(test) === undefined) throw problems.notFound('test');
  if (target !== undefined && metricFacts.get(target.metric) === undefined) throw problems.notFound('metric');
}

function noteAnswer({ person: _, active: __, ...note }: StoredNote): AthleteNote {
  const { target, ...rest } = note;
  return { ...rest, ...(target === undefined ? {} : { target: { ...target } }) };
}
