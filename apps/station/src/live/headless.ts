import { readFile } from 'node:fs/promises';
import { parseSourceDescription, type SourceDescription, streamChannelsOf, type Weighing } from '@sthene/capture';
import type { BatteryOrder, PersonDraft, PlannedEffort, QuestionView } from '@sthene/contract';
import { StoreError } from '@sthene/store';
import { ProblemError } from '../server/problem-error.ts';
import { createPerson } from '../work/people.ts';
import type { Station } from '../work/station.ts';
import { dateOf } from './clock.ts';
import { addEntry, createDay, openDay } from './day/day-work.ts';
import type { LoadedDay } from './day/loaded.ts';
import type { LiveLab } from './live-lab.ts';
import type { WalkIns } from './next-up.ts';
import type { RigRuntime } from './rig/rig-runtime.ts';
import { createRig, createSource } from './rig/rig-work.ts';

/** A day without anybody at a screen. */
export interface HeadlessOptions {
  /** Files with source descriptions, or the descriptions themselves. */
  readonly sources: readonly (string | SourceDescription)[];
  readonly handsFree: boolean;
  /** File of people in their order, one a line; absent: whoever comes is known by weight. */
  readonly people?: string;
  /** Tests in their order; `imtp` alone when absent. */
  readonly tests?: readonly string[];
  /** Everybody does all tests, in this order; needs a file of people. */
  readonly battery?: BatteryOrder;
  /** Efforts and rests of every test where they are not what the test proposes. */
  readonly plan?: {
    readonly efforts: readonly PlannedEffort[];
    readonly rest: { readonly minimum: number; readonly maximum: number };
  };
}

const by = 'station';

/** Sets rigs and day up as asked, or goes on with the day that is open, and runs it. @returns id of the day */
export async function runHeadless(station: Station, options: HeadlessOptions): Promise<string> {
  if (options.people === undefined && options.battery !== undefined)
    throw new ProblemError(
      400,
      'battery-needs-people',
      'In a battery it must be known who comes; nobody is told apart by weight alone.',
      'Name a file of people.',
    );
  await station.createLab('lab', undefined);
  const live = await station.live('lab');
  if (options.people === undefined) live.nextUp.walkIns = walkInsByWeight(live);
  live.autoAnswer = answersFor(live);
  if (live.loaded !== undefined) {
    live.nextUp.soon();
    return live.loaded.day.id;
  }
  const rigs = await rigsFor(live, await Promise.all(options.sources.map(descriptionFrom)));
  const people = options.people === undefined ? [] : await peopleFrom(live, await readFile(options.people, 'utf8'));
  const { plan, battery, tests = ['imtp'] } = options;
  const day = await createDay(live, {
    date: dateOf(live.ports.clock.wall()),
    title: 'Run without a screen',
    tests: tests.map((test) =>
      plan === undefined ? test : { test, efforts: [...plan.efforts], rest: { ...plan.rest } },
    ),
    ...(battery === undefined ? {} : { battery }),
    rigs,
    people,
    handsFree: options.handsFree,
    by,
  });
  await openDay(live, day.id, by);
  return day.id;
}

async function descriptionFrom(source: string | SourceDescription): Promise<SourceDescription> {
  let value: unknown = source;
  if (typeof source === 'string') {
    try {
      value = JSON.parse(await readFile(source, 'utf8'));
    } catch (error) {
      throw new ProblemError(
        400,
        'source-unreadable',
        `The source description cannot be read: ${error instanceof Error ? error.message : String(error)}`,
        'It is a JSON file; see docs/reference for its fields.',
      );
    }
  }
  const parsed = parseSourceDescription(value);
  if (parsed.ok) return parsed.description;
  const [first] = parsed.problems;
  throw new ProblemError(
    400,
    first?.code ?? 'source-not-an-object',
    `The source description does not fit: ${parsed.problems.map(({ at, message }) => `${at || '/'} ${message}`).join(' ')}`,
    'Correct what is named.',
  );
}

/** Sources that bring one side each and both together form one rig; any other is a rig of its own. */
export function rigsOf(descriptions: readonly SourceDescription[]): SourceDescription[][] {
  const sideOf = (description: SourceDescription) => {
    const forces = streamChannelsOf(description).filter(({ axis }) => axis === 'z' || axis === 'force');
    const sides = new Set(forces.map(({ side }) => side));
    return sides.size === 1 ? [...sides][0] : undefined;
  };
  const sides = descriptions.map(sideOf);
  const together = descriptions.length === 2 && new Set(sides).size === 2 && sides.every((side) => side !== undefined);
  return together ? [[...descriptions]] : descriptions.map((one) => [one]);
}

const shapes = ['circle', 'square', 'triangle', 'diamond'] as const;

async function rigsFor(live: LiveLab, descriptions: readonly SourceDescription[]): Promise<string[]> {
  const ids: string[] = [];
  for (const [i, group] of rigsOf(descriptions).entries()) {
    const sources = await Promise.all(group.map((description) => sourceFor(live, description)));
    const letter = String.fromCharCode(65 + i);
    const there = (await live.lab.store.rigs.list()).find((rig) => rig.active && rig.letter === letter);
    if (there !== undefined) {
      await live.lab.store.rigs.change(there.id, { sources }, await live.lab.actor(by));
      ids.push(there.id);
      continue;
    }
    const shape = shapes[i % shapes.length] ?? 'circle';
    ids.push((await createRig(live, { name: `Rig ${letter}`, letter, shape, sources, notes: '', by })).id);
  }
  return ids;
}

async function sourceFor(live: LiveLab, description: SourceDescription): Promise<string> {
  const known = (await live.lab.store.sources.list()).find(({ name }) => name === description.name);
  const document = JSON.parse(JSON.stringify(description)) as Parameters<typeof createSource>[1];
  if (known === undefined) return (await createSource(live, document, by)).id;
  await live.lab.store.sources.change(known.id, { description: document }, await live.lab.actor(by));
  return known.id;
}

/**
 * People from a file, one a line: `given name, family name, code, day of birth`, everything after the given name optional. Empty
 * lines and those that begin with # are left aside. A known code is that person.
 */
export async function peopleFrom(live: LiveLab, text: string): Promise<string[]> {
  const ids: string[] = [];
  for (const draft of peopleIn(text)) {
    const known = draft.code === undefined ? undefined : await live.lab.store.people.byCode(draft.code);
    ids.push(known?.id ?? (await createPerson(live.lab.store, draft)).id);
  }
  return ids;
}

export function peopleIn(text: string): PersonDraft[] {
  return text
    .replace(/^\uFEFF/, '')
    .split(/\r?\n/)
    .flatMap((line) => {
      const [givenName = '', familyName = '', code = '', birthDate = ''] = line.split(',').map((cell) => cell.trim());
      if (givenName === '' || givenName.startsWith('#')) return [];
      return [
        {
          givenName,
          familyName,
          ...(code === '' ? {} : { code }),
          ...(/^\d{4}-\d{2}-\d{2}$/.test(birthDate) ? { birthDate } : {}),
        },
      ];
    });
}

/** Body weights closer than this are the same person's, as a share; the identity guard of the engine asks at the same. */
const sameWeight = 0.03;

/** Knows whoever comes by the weight they had today; somebody of another weight is new. */
export function walkInsByWeight(live: LiveLab): WalkIns {
  return {
    async entryFor({ bodyWeight }: Weighing, loaded: LoadedDay) {
      let best: { readonly entry: string; readonly apart: number } | undefined;
      for (const { entry, done } of loaded.entries) {
        const weights = done.flatMap(({ result }) => (result.bodyWeight.ok ? [result.bodyWeight.value.value] : []));
        const last = weights.at(-1);
        if (last === undefined) continue;
        const apart = Math.abs(bodyWeight - last) / last;
        if (apart <= sameWeight && (best === undefined || apart < best.apart)) best = { entry: entry.id, apart };
      }
      if (best !== undefined) return best.entry;
      const number = loaded.entries.filter(({ entry }) => entry.walkIn).length + 1;
      const person = await createWalkIn(live, loaded.day.date, number);
      const day = await addEntry(live, loaded.day.id, { person: { id: person }, walkIn: true, by });
      const added = day.entries.find((one) => one.person.id === person);
      if (added === undefined) throw new Error('the walk-in is not on the day');
      return added.id;
    },
  };
}

async function createWalkIn(live: LiveLab, date: string, number: number): Promise<string> {
  for (let i = number; ; i++) {
    try {
      const code = `W${date.replaceAll('-', '').slice(2)}-${i}`;
      return (await createPerson(live.lab.store, { givenName: `Walk-in ${i}`, familyName: '', code })).id;
    } catch (error) {
      const taken = error instanceof ProblemError && error.code === 'code-taken';
      if (!taken && !(error instanceof StoreError && error.code === 'already-there')) throw error;
    }
  }
}

/**
 * Answers where nobody is at a screen. Who surprises goes on in the order of the day, and every effort of that turn is looked at
 * again with the reason, because nobody could say who it was; the first zero of a run has nothing it could have moved from; a later one that moved is measured until it is quiet.
 */
function answersFor(live: LiveLab): (question: QuestionView, runtime: RigRuntime) => string | undefined {
  return (question, runtime) => {
    if ([...live.hub.clients].some(({ device }) => device.role === 'operator')) return undefined;
    if (question.code === 'zero-moved') return runtime.stream.zeroAt === undefined ? 'take-it' : 'measure-again';
    if (question.code !== 'is-this-the-athlete') return undefined;
    live.raise({
      severity: 'warning',
      code: 'identity-not-asked',
      words: `${question.words} Nobody could be asked. The order of the day was followed, and the efforts of this turn do not count until somebody has looked.`,
      next: 'Look at the body weight of this session; let the efforts count, or give them to somebody else.',
      rig: question.rig,
    });
    return 'not-sure';
  };
}
