import { randomUUID } from 'node:crypto';
import { isEffort, type Weighing } from '@sthene/capture';
import { protocolRegistry } from '@sthene/core';
import { jumpSetupOf } from '../work/analyse-trial.ts';
import { nameOf } from '../work/people.ts';
import { isOpen, type LoadedDay, type LoadedEntry, unknownEntry } from './day/loaded.ts';
import { chooseNext } from './day/order.ts';
import { rulesOf } from './day/plan.ts';
import { effortWords, isWhole } from './day/remaining.ts';
import { candidatesOf, type Moment, restingOf, rigOf } from './day/view.ts';
import type { LiveLab } from './live-lab.ts';
import { earlierWeighing } from './one-weighing.ts';
import { type Refusal, refusalIn, refusals } from './refusals.ts';
import type { RigRuntime } from './rig/rig-runtime.ts';
import { barMovedOf, type History, historyOf, turnPlan } from './rig/turn-plan.ts';
import { weightMayShow } from './telling.ts';
import type { RunningTurn } from './turn.ts';

/** Knows people who were not announced, by what they weigh; given where a day runs without anybody at a screen. */
export interface WalkIns {
  /** The entry of somebody who weighs this: known from today, or new. */
  entryFor(weighing: Weighing, day: LoadedDay): Promise<string>;
}

/** Who goes on which rig. */
export class NextUp {
  readonly #live: LiveLab;
  walkIns: WalkIns | undefined;
  #choosing = false;
  /** Rigs whose walk-in went off the plates between two efforts: whoever comes next is weighed. */
  readonly #left = new Set<string>();

  constructor(live: LiveLab) {
    this.#live = live;
  }

  /** Chooses soon, when what goes on now is through. */
  soon(): void {
    setImmediate(() => void this.choose());
  }

  /** Puts whoever is next on each rig that is free, on a day that runs by itself. */
  async choose(): Promise<void> {
    const live = this.#live;
    if (this.#choosing || live.loaded === undefined || !live.handsFree) return;
    this.#choosing = true;
    try {
      const free = live.views.moment().rigs.filter((id) => this.isFree(id));
      if (this.walkIns !== undefined) for (const rig of free) this.#beginUnknown(rig, live.loaded);
      else await this.#beginPlanned(free, live.loaded);
    } finally {
      this.#choosing = false;
    }
  }

  async #beginPlanned(free: readonly string[], loaded: LoadedDay): Promise<void> {
    const { turns } = this.#live;
    const moment = this.#live.views.moment();
    const busy = new Set([...turns].filter(([rig]) => !free.includes(rig)).map(([, { view }]) => view.entry));
    const { battery } = loaded.settings;
    for (const choice of chooseNext(free, candidatesOf(loaded, moment, busy), moment.now, battery)) {
      const there = turns.get(choice.rig);
      if (there?.view.entry === choice.entry) continue;
      // Who goes on with the next test on the same plates rests in its turn.
      const person = loaded.entries.find(({ entry }) => entry.id === choice.entry)?.person.id;
      const staysOn = there !== undefined && there.view.person.id === person;
      if (choice.at > moment.now && !staysOn) continue;
      await this.begin(choice.rig, choice.entry);
    }
  }

  /** Nobody has a turn there, or the one who has it rests and everything of the effort is kept. */
  isFree(rig: string): boolean {
    const live = this.#live;
    const runtime = live.rigs.get(rig)?.runtime;
    if (runtime === undefined || runtime.stream.state !== 'measuring' || live.keeping || runtime.journal.failed)
      return false;
    return !live.turns.has(rig) || (runtime.phase === 'rest' && !runtime.held);
  }

  /** Whoever is next in the running order, rested or not: the effort has been made already. */
  async beginForFile(rig: string): Promise<void> {
    const { loaded } = this.#live;
    if (loaded === undefined) return;
    const { battery } = loaded.settings;
    const [choice] = chooseNext([rig], candidatesOf(loaded, this.#live.views.moment()), this.#live.now, battery);
    if (choice !== undefined) await this.begin(rig, choice.entry);
  }

  /** Puts an entry on a rig. @returns why it was refused */
  async begin(rig: string, entryId: string): Promise<Refusal | undefined> {
    const live = this.#live;
    const runtime = live.rigs.get(rig)?.runtime;
    // What was just made may be what the next test rests and is weighed by. A file begins its turn while it is being kept.
    if (live.loaded?.settings.battery !== undefined && runtime?.files === false) await live.settled();
    const { loaded } = live;
    const entry = loaded?.entries.find((one) => one.entry.id === entryId);
    if (runtime === undefined || loaded === undefined || entry === undefined) return refusals.unknown;
    const refused = this.#mayBegin(rig, runtime, entry);
    if (refused !== undefined) return refused;
    const history = await historyOf(live.lab, entry.person.id, entry.entry.test);
    if (runtime.phase === 'cue' || isEffort(runtime.phase)) return refusals.busy;
    this.#leaveOthers(rig, entry);
    const turn = turnOf(live, runtime, entry, history);
    const { weighed, note } = earlierWeighing(loaded, entry, runtime);
    if (note !== undefined) turn.weightNote = note;
    const earlier = weighed && protocolRegistry.get(weighed.from.test)?.title;
    if (earlier !== undefined) turn.earlierTest = earlier;
    const moment = live.views.moment();
    const plan = planFor(runtime, entry, history);
    const follows = followsOn(loaded, entry, rig);
    return this.#start(runtime, turn, {
      ...plan,
      ...restOf(entry, moment),
      ...(weighed === undefined ? {} : { weighed }),
      ...(follows === undefined ? {} : { goesOn: follows }),
    });
  }

  /** Somebody who is through on another rig and still has the turn there. */
  #leaveOthers(rig: string, { person }: LoadedEntry): void {
    const live = this.#live;
    for (const [id, { view }] of live.turns) {
      const other = live.rigs.get(id)?.runtime;
      if (id !== rig && view.person.id === person.id && other !== undefined) live.order(other, { order: 'end-turn' });
    }
  }

  #start(runtime: RigRuntime, turn: RunningTurn, next: ReturnType<typeof turnPlan>): Refusal | undefined {
    const live = this.#live;
    const rig = runtime.id;
    // The engine answers at once, and what it says must find the new turn.
    live.starting.set(rig, turn);
    const outputs = live.orderWith(runtime, { order: 'next-athlete', next }, turn.view.test);
    live.starting.delete(rig);
    const refusal = refusalIn(outputs);
    if (refusal !== undefined) return refusal;
    live.turns.set(rig, turn);
    live.efforts.forget(rig);
    if (live.handsFree) live.room.waiting.add(rig);
    live.tellFloor(rig);
    live.tellDay();
    live.room.armWaiting();
    return undefined;
  }

  #mayBegin(rig: string, runtime: RigRuntime, entry: LoadedEntry): Refusal | undefined {
    const live = this.#live;
    if (runtime.journal.failed) return refusals.journal;
    if (entry.allowed === 'nothing') return { ...refusals.blocked, words: gateWords(entry) };
    if (entry.allowed === 'after-answers' && !live.handsFree) return { ...refusals.answers, words: gateWords(entry) };
    if (entry.entry.state === 'left' || entry.entry.state === 'done') return refusals.gone;
    if (entry.remaining.length === 0) return refusals.done;
    if ([...live.turns].some(([id, turn]) => id !== rig && this.#isBusy(id, turn, entry))) return refusals.elsewhere;
    const rest = restingOf(entry, live.views.moment());
    const known = runtime.journal.capture === entry.last?.origin.capture;
    // The engine minds the rests of its own capture; those of another rig or from before a restart are minded here.
    if (rest !== undefined && !known && !runtime.files && rest.elapsed < rest.minimum) return refusals.resting;
    return undefined;
  }

  /** The same person has a turn on another rig, and it is not only left open after their last effort there. */
  #isBusy(rig: string, { view }: RunningTurn, { person }: LoadedEntry): boolean {
    if (view.person.id !== person.id) return false;
    const live = this.#live;
    const there = live.loaded?.entries.find((one) => one.entry.id === view.entry);
    return there === undefined || there.remaining.length > 0 || live.rigs.get(rig)?.runtime.phase !== 'rest';
  }

  /** A turn of somebody nobody has announced: the zero is taken and whoever comes is weighed. */
  #beginUnknown(rig: string, loaded: LoadedDay): void {
    const live = this.#live;
    const runtime = live.rigs.get(rig)?.runtime;
    const plan = loaded.plans[0];
    if (runtime === undefined || plan === undefined || runtime.files) return;
    const stayed = live.turns.get(rig);
    // Whoever rests on the plates goes on by themselves; whoever left makes room.
    if (stayed !== undefined && stayed.entry.remaining.length > 0 && !this.#left.has(rig)) return;
    this.#left.delete(rig);
    const entry = unknownEntry(loaded.day.id, plan, `walk-in-${randomUUID()}`);
    const turn = { ...turnOf(live, runtime, entry, { peaks: [] }), unknown: true };
    this.#start(runtime, turn, planFor(runtime, entry, { peaks: [] }, true));
  }

  /** On a day of walk-ins nobody knows who comes back, so that a rest off the plates ends the turn. */
  steppedOff(runtime: RigRuntime): void {
    if (this.walkIns === undefined || (runtime.phase !== 'rest' && runtime.phase !== 'verdict')) return;
    this.#left.add(runtime.id);
    this.soon();
  }

  /** Somebody was weighed: now it is known, or made known, who it is. */
  weighed(runtime: RigRuntime, turn: RunningTurn, weighing: Weighing): void {
    const live = this.#live;
    const { walkIns } = this;
    if (!turn.unknown || walkIns === undefined) return;
    void live.enqueue('A walk-in', async () => {
      if (live.loaded === undefined) return;
      const id = await walkIns.entryFor(weighing, live.loaded);
      await live.refresh();
      const entry = live.loaded?.entries.find((one) => one.entry.id === id);
      if (entry === undefined || live.turns.get(runtime.id) !== turn) return;
      const history = await historyOf(live.lab, entry.person.id, entry.entry.test);
      const refused = live.order(runtime, { order: 'identify', as: planFor(runtime, entry, history) });
      if (refused !== undefined) return;
      const { view, ...known } = turnOf(live, runtime, entry, history);
      Object.assign(turn, known, { unknown: false, weighing, view: { ...view, id: turn.view.id } });
      live.tellFloor(runtime.id);
      live.tellDay();
    });
  }
}

function turnOf(live: LiveLab, runtime: RigRuntime, entry: LoadedEntry, history: History): RunningTurn {
  const next = entry.remaining[0] ?? { kind: 'maximal' as const };
  const { test } = entry.entry;
  return {
    view: {
      id: `${runtime.journal.capture}-${test}-${runtime.turnOf(test) + 1}`,
      entry: entry.entry.id,
      person: { id: entry.person.id, name: nameOf(entry.person), code: entry.person.code },
      test,
      effort: next,
      words: effortWords(entry.plan, entry.done, next),
      ...(entry.battery === undefined ? {} : { battery: { place: entry.battery.place, of: entry.battery.of } }),
    },
    enginePerson: entry.person.id,
    unknown: false,
    entry,
    history,
    wallName: live.views.wallNameOf(entry.entry.id),
    stillProgress: 0,
    weightShown: weightMayShow(live.settings.bodyWeight, entry.person, live.today),
  };
}

/** A rest from another test that is not over; the engine of a test minds those of its own efforts. */
function restOf(entry: LoadedEntry, moment: Moment): Pick<ReturnType<typeof turnPlan>, 'rest'> {
  const resting = restingOf(entry, moment);
  if (resting === undefined || entry.last?.entry === entry.entry.id || resting.elapsed >= resting.minimum) return {};
  const { elapsed, minimum } = resting;
  return { rest: { elapsed, minimum, maximum: rulesOf(entry.plan).rest.maximum } };
}

/** Whether another test of this person comes after this one, and whether they stay on these plates for it. */
function followsOn(loaded: LoadedDay, one: LoadedEntry, rig: string): 'here' | 'later' | undefined {
  if (one.battery === undefined) return undefined;
  const next = loaded.entries.find((other) => other !== one && other.person.id === one.person.id && isOpen(other));
  if (next === undefined) return undefined;
  const there = rigOf(next);
  const here = there === undefined ? next.plan.rigs?.includes(rig) !== false : there === rig;
  return here && loaded.settings.battery === 'by-person' && next.protocol.load === 'weight' ? 'here' : 'later';
}

function planFor(
  runtime: RigRuntime,
  entry: LoadedEntry,
  history: History,
  unknown = false,
): ReturnType<typeof turnPlan> {
  const barMoved = barMovedOf(entry.entry.setup, entry.lastSetup?.values);
  const known = runtime.trialsOf(entry.person.id, entry.entry.test);
  const left = entry.remaining.filter(({ kind }) => kind === 'maximal').length;
  // An effort that is just being kept is known to the engine alone, and is no longer to be done.
  const kept = entry.done.filter(({ origin }) => origin?.capture === runtime.journal.capture).length;
  const keeping = known
    .slice(kept)
    .filter(({ effort, verdict }) => effort === 'maximal' && verdict === 'counts').length;
  return turnPlan({
    person: entry.person.id,
    maximalLeft: Math.max(0, left - keeping),
    done: entry.done,
    history,
    allowed: entry.allowed,
    minor: entry.minor,
    painStopped: entry.painStopped,
    ...(barMoved === undefined ? {} : { barMoved }),
    ...(entry.protocol.jump === undefined ? {} : { jumpSetup: jumpSetupOf(entry.entry.setup) }),
    unknown,
    knownToEngine: {
      counting: known.filter(({ effort, verdict }) => effort === 'maximal' && verdict === 'counts').length,
      submaximal: known.filter(({ effort, ended }) => effort === 'submaximal' && isWhole(ended)).length,
    },
  });
}

function gateWords({ gates }: LoadedEntry): string {
  return gates
    .filter(({ effect }) => effect === 'blocks' || effect === 'asks')
    .map(({ words }) => words)
    .join(' ');
}
