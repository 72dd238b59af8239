import { type ReceivedLine, unknownMethod } from '@sthene/contract';
import { meanOf } from '@sthene/core';
import type { ReceivedValue } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';

/**
 * What others gave of one metric of an athlete: a line for each method label and for what the values are of. The trials of a session come
 * to their mean, as this lab's own do; a best is no mean and stands in a line of its own.
 */
export async function receivedLines(
  lab: OpenLab,
  query: { readonly person: string; readonly metric: string; readonly protocol: string },
): Promise<ReceivedLine[]> {
  const lines = new Map<string, ReceivedLine>();
  for (const { session, at, timeKnown, methodLabel, fileName, values } of await lab.store.received.history(query)) {
    for (const [of, own] of byKind(values)) {
      const key = JSON.stringify([methodLabel, of, own.unit]);
      const line = lines.get(key) ?? {
        letter: letterOf(lines.size),
        label: methodLabel,
        known: methodLabel !== unknownMethod,
        of,
        unit: own.unit,
        points: [],
      };
      line.points.push({ session, at, timeKnown, value: meanOf(own.values), n: own.values.length, fileName });
      lines.set(key, line);
    }
  }
  return [...lines.values()];
}

/** A, B, ... Z, A2, B2, ... */
const letterOf = (place: number): string =>
  `${String.fromCharCode(65 + (place % 26))}${place < 26 ? '' : Math.floor(place / 26) + 1}`;

function byKind(values: readonly ReceivedValue[]): Map<ReceivedLine['of'], { unit: string; values: number[] }> {
  const kinds = new Map<ReceivedLine['of'], { unit: string; values: number[] }>();
  // A mean that is given stands before the mean of the trials beside it.
  const given = values.some(({ of, value }) => of === 'mean' && value !== undefined);
  for (const { of, value, unit, facts } of values) {
    if (value === undefined || (of === 'trial' && given) || standsAside(facts)) continue;
    const kind = of === 'trial' ? 'mean' : of;
    const known = kinds.get(kind) ?? { unit, values: [] };
    if (known.unit === unit) known.values.push(value);
    kinds.set(kind, known);
  }
  return kinds;
}

/** A trial of an exchange file that was no maximal effort, or did not count where it was made. */
const standsAside = ({ effort, standing }: ReceivedValue['facts']): boolean =>
  (effort !== undefined && effort !== 'maximal') || (standing !== undefined && standing !== 'counts');
