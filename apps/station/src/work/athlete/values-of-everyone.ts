import type { MetricHistoryQuery, MetricPoint } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { remembered, stateOfStore } from './remembered.ts';
import { type SessionAlone, type SessionOfMetric, sessionsAlone, withFirsts } from './session-values.ts';

/** Trials and sessions written about since a look at everybody's, up to which only those are looked at again. */
const few = 300;

interface Known {
  /** The session each trial was found in. */
  readonly homes: ReadonlyMap<string, string>;
  /** Oldest first. */
  readonly inOrder: readonly SessionOfMetric[];
}

type Asked = Pick<MetricHistoryQuery, 'metric' | 'protocol' | 'run'>;

/**
 * Everybody's sessions of a metric, oldest first; kept until something in the store changes, and then only what was written about is
 * looked at again: on a test day each effort is such a write, and a large lab takes seconds to be looked at whole.
 */
export async function valuesOfEveryone(lab: OpenLab, asked: Asked): Promise<readonly SessionOfMetric[]> {
  const key = `values ${asked.protocol} ${asked.metric} ${asked.run ?? ''}`;
  const { inOrder } = await remembered<Known>(lab, key, await stateOfStore(lab), async (before) => {
    const known = before && (await before.value.catch(() => undefined));
    return (known && (await renewed(lab, asked, known, before.state as number))) ?? (await whole(lab, asked));
  });
  return inOrder;
}

async function whole({ store }: OpenLab, asked: Asked): Promise<Known> {
  return knownOf([], new Map(), await store.results.history({ ...asked, of: 'everyone' }));
}

/** Undefined where so much was written that looking at everything is no more work. */
async function renewed({ store }: OpenLab, asked: Asked, known: Known, since: number): Promise<Known | undefined> {
  const changed = await store.results.changedSince(since, few);
  if (changed === undefined) return undefined;
  const were = changed.trials.flatMap((trial) => known.homes.get(trial) ?? []);
  const again = new Set([...changed.sessions, ...were]);
  if (again.size === 0) return known;
  const homes = new Map(known.homes);
  for (const trial of changed.trials) homes.delete(trial);
  const untouched = known.inOrder.filter(({ session }) => !again.has(session));
  return knownOf(untouched, homes, await store.results.history({ ...asked, of: { sessions: [...again] } }));
}

/** Adds the sessions of some trials to those known. */
function knownOf(sessions: readonly SessionAlone[], homes: Map<string, string>, points: readonly MetricPoint[]): Known {
  for (const { trial, session } of points) homes.set(trial, session);
  return { homes, inOrder: withFirsts([...sessions, ...sessionsAlone(points)].sort(byTime)) };
}

const byTime = (a: SessionAlone, b: SessionAlone): number => compare(a.at, b.at) || compare(a.session, b.session);

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
