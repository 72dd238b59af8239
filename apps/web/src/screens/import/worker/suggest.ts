import {
  analyse,
  defaultMethod,
  type ForceSelection,
  type Forces,
  forcesOf,
  protocolRegistry,
  type Recording,
  standardGravity,
  unitOfForces,
} from '@sthene/core';
import type { Ask, SuggestAnswer, Suggestion, Why } from './messages.ts';
import { readFile } from './read-file.ts';

/** From this level on somebody stands on the plates, N: well above noise and a hand's load, below the lightest athlete. */
const standsFrom = 150;

/**
 * Proposes a test and how many efforts to take, from what the recording shows: whether a body rests on the plates before the
 * effort, which sides are chosen, how many efforts there are. A proposal only; a person sees it with its reasons.
 */
export function suggest(recording: Recording, selection: ForceSelection, recordings: number): Suggestion {
  const { test, why } = testOf(recording, selection);
  const found = effortsIn(recording, selection, test);
  if (recordings > 1) return { test, efforts: 'largest', why: [...why, { code: 'trials' }] };
  if (found > 1) return { test, efforts: 'all', why: [...why, { code: 'efforts', count: found }] };
  return { test, efforts: 'largest', why: [...why, { code: found === 1 ? 'one-effort' : 'no-effort' }] };
}

/** The same for inputs a person chose. */
export async function suggestFor({ file, reading, inputs }: Ask & { ask: 'suggest' }): Promise<SuggestAnswer> {
  const read = await readFile(file, reading);
  const first = read.ok ? read.recordings[0] : undefined;
  if (!read.ok || first === undefined) return {};
  return { suggestion: suggest(first.recording, { inputs } as ForceSelection, read.recordings.length) };
}

function testOf(recording: Recording, selection: ForceSelection): { test: string; why: Why[] } {
  const forces = forcesOf(recording, selection, 'N');
  if (!forces.ok) return { test: 'isometric-effort', why: [{ code: 'not-newtons' }] };
  const level = restingLevel(recording, selection, forces.value.total);
  if (level < standsFrom) return { test: 'isometric-effort', why: [{ code: 'unloaded' }] };
  const why: Why[] = [{ code: 'standing', newtons: level }];
  const parts = new Set(selection.inputs.map(({ part }) => part));
  if (leavesPlates(forces.value, level)) {
    const jump = jumpTestOf(recording, selection, parts);
    if (jump !== undefined) {
      // A jump has its own standing second; the quiet stretch of a pull would lie anywhere in it.
      const weight = analysed(recording, selection, jump, 'largest')[0]?.bodyWeight;
      const newtons = weight?.ok ? weight.value.value : level;
      return { test: jump, why: [{ code: 'standing', newtons }, { code: 'jump' }] };
    }
    why.push({ code: 'flight' });
  }
  if (parts.size === 1 && parts.has('left'))
    return { test: 'imtp-left', why: [...why, { code: 'one-side', side: 'left' }] };
  if (parts.size === 1 && parts.has('right'))
    return { test: 'imtp-right', why: [...why, { code: 'one-side', side: 'right' }] };
  return { test: 'imtp', why };
}

/**
 * The jump test that finds a jump: hops where there is a series, a drop jump where the first contact comes from empty plates, else a
 * countermovement jump, on one leg where one side alone is chosen. A squat jump is told from it by what the athlete did, so by a person.
 */
function jumpTestOf(recording: Recording, selection: ForceSelection, parts: ReadonlySet<string>): string | undefined {
  const [side] = parts;
  const one = parts.size === 1 && (side === 'left' || side === 'right') ? [`countermovement-jump-${side}`] : [];
  const tests = ['repeated-hops', 'drop-jump', ...one, 'countermovement-jump'];
  return tests.find((test) => effortsIn(recording, selection, test) > 0);
}

/** Shortest time off the plates that is a flight and no stumble of the signal, s; the load below which nobody stands there. */
const flightTime = 0.08;
const flightShare = 0.05;

/** Whether somebody who stood on the plates leaves them and comes back. */
function leavesPlates({ total, sampleRate }: Forces, level: number): boolean {
  let stood = false;
  let off = 0;
  for (const force of total) {
    if (force > 0.5 * level) {
      if (stood && off >= flightTime * sampleRate) return true;
      stood = true;
      off = 0;
    } else if (force < flightShare * level) off += 1;
  }
  return false;
}

/**
 * Level on the plates before the effort where one is found, else the median of the recording, N.
 *
 * Where the quiet stretch of any effort is nearly empty, somebody may still have stepped on after it: that standing counts,
 * unless it lies in the effort itself (a held effort without body weight looks like standing to a test that seeks it).
 */
function restingLevel(recording: Recording, selection: ForceSelection, total: Float64Array): number {
  const plain = analysed(recording, selection, 'isometric-effort', 'largest')[0]?.events;
  const weighted = analysed(recording, selection, 'imtp', 'largest')[0]?.events;
  if (plain && plain.quietLevel < standsFrom && weighted) {
    const before = weighted.quietWindow !== undefined && weighted.quietWindow.end <= plain.halfRise;
    return before ? weighted.quietLevel : plain.quietLevel;
  }
  if (plain) return plain.quietLevel;
  const sorted = total.filter(Number.isFinite).sort();
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}

const effortsIn = (recording: Recording, selection: ForceSelection, test: string) =>
  analysed(recording, selection, test, 'all').filter((trial) => trial.reason === undefined).length;

function analysed(recording: Recording, selection: ForceSelection, test: string, efforts: 'largest' | 'all') {
  const protocol = protocolRegistry.get(test);
  if (protocol === undefined) return [];
  const forces = forcesOf(recording, selection, unitOfForces(recording, selection, protocol));
  if (!forces.ok) return [];
  return analyse({ forces: forces.value, protocol, method: defaultMethod, gravity: standardGravity, efforts }).trials;
}
