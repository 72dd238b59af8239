import { type VirtualPerson, type VirtualScript, virtualScripts } from '@sthene/capture';
import type { LiveLab } from '../live-lab.ts';
import { historyOf } from '../rig/turn-plan.ts';

/** So many athletes are looked up at most; whoever comes after them is played by the script's own people. */
const most = 60;
/** So many of the last peaks make the strength somebody is played with. */
const lastPeaks = 5;

/**
 * The scripts of virtual plates with the athletes of the lab in front, as their last sessions measured them: body weight, peak
 * force above it, usual share of the right foot. So whoever is called stands on the plates with their own weight, and the
 * station need not ask who it is. Faults are those of the script, by the place in the running order. Nothing is stored.
 */
export async function scriptsOf(live: LiveLab): Promise<Readonly<Record<string, VirtualScript>>> {
  // Where nobody is announced the script alone says who comes.
  if (live.nextUp.walkIns !== undefined) return virtualScripts;
  const athletes = await athletesOf(live);
  return Object.fromEntries(
    Object.entries(virtualScripts).map(([name, script]) => [
      name,
      {
        ...script,
        people: [
          ...athletes.map(({ place, ...person }): VirtualPerson => {
            const faults = place === undefined ? undefined : script.people[place]?.faults;
            return { ...person, ...(faults === undefined ? {} : { faults }) };
          }),
          ...script.people,
        ],
      },
    ]),
  );
}

async function athletesOf(live: LiveLab): Promise<(VirtualPerson & { readonly place?: number })[]> {
  const { loaded, lab } = live;
  const onDay = loaded?.entries.map(({ entry }) => entry.person) ?? [];
  const others = (await lab.store.people.list({ active: true })).map(({ id }) => id);
  const people = [...new Set([...onDay, ...others])].slice(0, most);
  const test = loaded?.plans[0]?.test ?? 'imtp';
  const found = await Promise.all(
    people.map(async (ref) => {
      const { peaks, lastBodyWeight: weight, usualShareRight } = await historyOf(lab, ref, test);
      const last = peaks.slice(-lastPeaks).map(({ value }) => value);
      const peak = last.reduce((sum, value) => sum + value, 0) / last.length;
      if (weight === undefined || !(peak > 1.2 * weight)) return [];
      const place = onDay.indexOf(ref);
      return [
        {
          ref,
          weight,
          strength: peak - weight,
          ...(usualShareRight === undefined ? {} : { shareRight: usualShareRight / 100 }),
          ...(place < 0 ? {} : { place }),
        },
      ];
    }),
  );
  return found.flat();
}
