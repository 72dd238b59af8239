import { virtualDescription } from '@sthene/capture';
import type { Day, practiceDraft } from '@sthene/contract';
import type { z } from 'zod';
import { ProblemError } from '../../server/problem-error.ts';
import { createDay, showDay } from '../day/day-work.ts';
import type { LiveLab } from '../live-lab.ts';
import { createRig, createSource } from '../rig/rig-work.ts';

const title = 'Practice day';
const script = 'fernwater-practice';
const sourceName = 'Virtual plates';
/** Codes of three of the example squad that differ in weight and strength, and have nothing against a maximal effort. */
const three = ['FW06', 'FW02', 'FW08'];

/**
 * A day to practise on, in the example lab only: three athletes of the invented club on virtual plates. The day that is open,
 * or a practice day of today that nobody has begun, is given again; rig and source are made once.
 */
export async function practiceDay(live: LiveLab, { by }: z.infer<typeof practiceDraft>): Promise<Day> {
  const { lab } = live;
  if (!lab.demo)
    throw new ProblemError(
      409,
      'example-only',
      'A practice day is part of the example squad.',
      'Open the example squad on the start screen, or plan a day of your own on virtual plates.',
    );
  if (live.loaded !== undefined) return showDay(live, live.loaded.day.id);
  const date = localDate(new Date(live.now));
  const days = await lab.store.days.list();
  const there = days.find((day) => day.status === 'planned' && day.title === title && day.date === date);
  if (there !== undefined) return showDay(live, there.id);
  const people = await Promise.all(three.map((code) => lab.store.people.byCode(code)));
  return createDay(live, {
    date,
    title,
    tests: ['imtp'],
    rigs: [await practiceRig(live, by)],
    people: people.flatMap((person) => (person === undefined ? [] : [person.id])),
    by,
  });
}

/** The day as people at the station call it, not as Greenwich does. */
const localDate = (now: Date): string =>
  [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0')).join('-');

async function practiceRig(live: LiveLab, by: string): Promise<string> {
  const { store } = live.lab;
  const sources = (await store.sources.list()).filter(({ active }) => active);
  const isVirtual = ({ description }: (typeof sources)[number]) =>
    (description as { transport?: { kind?: string } }).transport?.kind === 'virtual';
  // Plates that measure wrong are no place to practise a day on.
  const isSound = ({ description }: (typeof sources)[number]) =>
    (description as { transport?: { script?: string } }).transport?.script !== 'fernwater-worn';
  const fits = (one: (typeof sources)[number]) => isVirtual(one) && isSound(one);
  const known = sources.find((one) => one.name === sourceName && fits(one)) ?? sources.find(fits);
  const source = known?.id ?? (await createSource(live, descriptionOfPlates(), by)).id;
  const rigs = (await store.rigs.list()).filter(({ active }) => active);
  const rig = rigs.find((one) => one.sources.includes(source));
  if (rig !== undefined) return rig.id;
  const taken = new Set(rigs.map(({ letter }) => letter));
  const letter = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'].find((one) => !taken.has(one)) ?? 'Z';
  const draft = { name: `Practice rig ${letter}`, letter, shape: 'circle' as const, sources: [source], notes: '', by };
  return (await createRig(live, draft)).id;
}

const descriptionOfPlates = () =>
  JSON.parse(JSON.stringify(virtualDescription(sourceName, script, 1))) as Parameters<typeof createSource>[1];
