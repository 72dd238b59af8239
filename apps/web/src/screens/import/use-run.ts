import { call, type ImportOutcome, routes } from '@sthene/contract';
import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { doImport } from '../../data/imports.ts';
import { base, fetcher, problemOf } from '../../data/station.ts';
import { useSay } from '../../parts/status.tsx';
import { importWords } from '../../words/importing.ts';
import { requestOf } from './requests.ts';
import type { Item, Who } from './state.ts';
import type { Import } from './use-import.ts';
import { personName } from './who-name.ts';

/** Imports files one after the other. One that fails does not stop the others; it can be tried again alone. */
export function useRun({ state, lab, act }: Import) {
  const client = useQueryClient();
  const say = useSay();
  const [progress, setProgress] = useState<{ done: number; of: number }>();

  /** An athlete to be added is added once; from then on the files of this import know the one who is there. */
  const personOf = async (who: Who, made: Map<string, string>): Promise<string> => {
    if (who.kind === 'known') return who.id;
    const key = `${personName(who)} ${who.code}`;
    const before = made.get(key);
    if (before !== undefined) return before;
    const person = await call(fetcher, base, routes.createPerson, {
      params: { lab },
      body: {
        givenName: who.givenName.trim() || who.familyName.trim(),
        familyName: who.givenName.trim() === '' ? '' : who.familyName.trim(),
        ...(who.code.trim() === '' ? {} : { code: who.code.trim() }),
      },
    });
    made.set(key, person.id);
    const kept: Who = { kind: 'known', id: person.id, name: personName(person), code: person.code };
    if (state.who === who) act({ do: 'set', part: { who: kept } });
    for (const item of state.items) if (item.who === who) act({ do: 'item', key: item.key, part: { who: kept } });
    return person.id;
  };

  const start = async (items: readonly Item[], by: string) => {
    const made = new Map<string, string>();
    const sessions = new Map<string, string>(sessionsSoFar(state.items, state));
    let trials = 0;
    let failed = 0;
    for (const [done, item] of items.entries()) {
      setProgress({ done, of: items.length });
      try {
        const who = (state.different ? item.who : state.who) as Who;
        const request = requestOf(state, item);
        if (!request.ok) continue;
        const id = await personOf(who, made);
        const place = `${id} ${request.value.mapping.test} ${request.value.startedAt?.slice(0, 10) ?? ''}`;
        const session = request.value.session ?? (state.oneSession ? sessions.get(place) : undefined);
        const outcome: ImportOutcome = await doImport(lab, {
          ...request.value,
          person: { id },
          by,
          ...(session === undefined ? {} : { session }),
        });
        if (outcome.session !== undefined) sessions.set(place, outcome.session);
        trials += outcome.trials.length;
        act({ do: 'item', key: item.key, part: { outcome, importProblem: undefined } });
      } catch (error) {
        failed += 1;
        act({ do: 'item', key: item.key, part: { importProblem: problemOf(error) } });
      }
    }
    setProgress(undefined);
    const stale = ['sessions', 'session', 'people', 'templates', 'uploads', 'station', 'dry-run', 'trial'];
    await Promise.all(stale.map((name) => client.invalidateQueries({ queryKey: [name], refetchType: 'none' })));
    void client.invalidateQueries({ queryKey: ['station'] });
    act({ do: 'step', step: 4 });
    say(importWords.result.said(trials, failed));
  };

  return { start, busy: progress !== undefined, done: progress?.done ?? 0, of: progress?.of ?? 0 };
}

/** Sessions that earlier files of this import made, so that a retry joins them. */
function sessionsSoFar(items: readonly Item[], state: Import['state']): [string, string][] {
  return items.flatMap((item): [string, string][] => {
    const who = state.different ? item.who : state.who;
    const request = requestOf(state, item);
    if (item.outcome?.session === undefined || who?.kind !== 'known' || !request.ok) return [];
    const day = request.value.startedAt?.slice(0, 10) ?? '';
    return [[`${who.id} ${request.value.mapping.test} ${day}`, item.outcome.session]];
  });
}
