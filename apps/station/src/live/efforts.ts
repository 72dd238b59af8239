import { type ClosedTrial, type Correction, correctionFor, type EngineOutput, type Packet } from '@sthene/capture';
import type { LiveVerdict } from '@sthene/contract';
import type { MonotonicNanoseconds } from '@sthene/core';
import type { Actor } from '@sthene/store';
import { stationActor } from '../labs/open-lab.ts';
import { millisecondsOf } from './clock.ts';
import type { Recipes } from './day/plan.ts';
import { effortWords } from './day/remaining.ts';
import type { Message } from './hub/client.ts';
import type { LiveLab } from './live-lab.ts';
import { endCapture, fileTrial } from './rig/file-trial.ts';
import { type KeptTrial, keepReview, keepTrial } from './rig/keep-trial.ts';
import type { Closing } from './rig/rig-options.ts';
import type { RigRuntime } from './rig/rig-runtime.ts';
import { jumpHeightOf } from './rig/shown-values.ts';
import { effortIds } from './rig/trial-id.ts';
import { historyOf } from './rig/turn-plan.ts';
import { type AnnouncedTrial, verdictMessageOf } from './rig/verdict.ts';
import { tellingOfTrial } from './telling.ts';
import type { RunningTurn } from './turn.ts';

/** A verdict as the wall shows it: it stays there when its turn is over and the next has not begun. */
export interface ShownVerdict {
  readonly verdict: LiveVerdict;
  readonly who: string;
  readonly what: string;
  /** Highest force above standing, N. */
  readonly highest?: number;
  /** Of a jump: its height, m. */
  readonly height?: number;
}

/** A verdict stands on the wall for so long, ms. */
const shownFor = 30_000;

/** What becomes of closed efforts: kept, announced, reviewed, decided about. */
export class Efforts {
  readonly #live: LiveLab;
  readonly #verdicts = new Map<string, ShownVerdict & { readonly at: number }>();
  readonly #corrections = new Map<string, Correction>();
  readonly #kept = new Map<string, KeptTrial>();
  /** Efforts that could not be kept, by the capture whose journal has them: the entry of each. */
  readonly #unkept = new Map<string, string[]>();

  constructor(live: LiveLab) {
    this.#live = live;
  }

  /** The last verdict of each rig. */
  get verdicts(): LiveVerdict[] {
    return [...this.#verdicts.values()].map(({ verdict }) => verdict);
  }

  /** The verdict that is still on the wall. */
  shown(rig: string): ShownVerdict | undefined {
    const last = this.#verdicts.get(rig);
    return last !== undefined && this.#live.now - last.at < shownFor ? last : undefined;
  }

  /** Whether the journal of a capture has an effort that the store does not. */
  hasUnkept(capture: string): boolean {
    return this.#unkept.has(capture);
  }

  /** Efforts somebody has made that the store does not have yet: they are not to be made again. */
  unkeptOf(entry: string): number {
    return [...this.#unkept.values()].flat().filter((one) => one === entry).length;
  }

  forget(rig: string): void {
    this.#verdicts.delete(rig);
  }

  /**
   * An effort closed. Once the journal has it safe the verdict is told: nobody waits for files and database, and after a crash the
   * journal gives the same trial again. Then recording, trial and result are kept.
   */
  closed(runtime: RigRuntime, closing: Closing): void {
    const began = this.#live.turns.get(runtime.id);
    if (began === undefined) return;
    const { closed, detected } = closing;
    // The next cue is another one, and it may come before this effort is written.
    const { cueHeard } = began;
    void this.#live.enqueue('An effort', async () => {
      const safe = await runtime.journal.settled();
      if (!safe) this.#warnUnconfirmed(runtime.id);
      // Who it was may have become known meanwhile.
      const turn = began.unknown ? (this.#live.turns.get(runtime.id) ?? began) : began;
      const recipes = runtime.recipesOf(turn.view.test);
      if (recipes === undefined) throw new Error('the test has no method');
      const key = keyOf(runtime, turn.view.test, closed.person, closed.trial);
      const announce = (of: AnnouncedTrial) => {
        const told = { ...turn, view: { ...turn.view, effort: effortOf(closed, turn) } };
        this.#announce(runtime, told, closed, of, detected, this.#corrections.get(key));
      };
      if (safe) {
        const ids = effortIds(runtime.journal.capture, closed.span.start);
        announce({ trial: ids.trial, session: turn.entry.entry.session ?? ids.session });
      }
      const { capture } = runtime.journal;
      const kept = await keepTrial(
        this.#live.lab,
        {
          ...closing,
          ...(closed.cue === undefined || cueHeard === undefined ? {} : { cueHeard }),
          capture,
          rig: runtime.id,
          person: turn.view.person.id,
          protocol: turn.entry.protocol,
          document: turn.entry.plan.document,
          ...pick(recipes),
          setup: turn.entry.entry.setup,
          entry: turn.entry.entry,
        },
        stationActor,
      ).catch((error: unknown) => {
        this.#unkept.set(capture, [...(this.#unkept.get(capture) ?? []), turn.view.entry]);
        throw error;
      });
      this.#kept.set(key, kept);
      if (!safe) announce(kept);
      this.#nowKept(runtime.id, kept);
      await this.#live.refresh();
      await this.#goOn(runtime.id, turn);
    });
  }

  #warnUnconfirmed(rig: string): void {
    this.#live.raise({
      severity: 'warning',
      code: 'kept-before-journal',
      words: 'The journal could not confirm this effort yet; its recording was kept all the same.',
      next: 'Look at the disk before the next effort.',
      rig,
    });
  }

  #announce(
    runtime: RigRuntime,
    turn: RunningTurn,
    closed: ClosedTrial,
    kept: AnnouncedTrial,
    detected: MonotonicNanoseconds,
    correction?: Correction,
  ): void {
    const { clock } = this.#live.ports;
    const verdict = verdictMessageOf({
      rig: runtime.id,
      turn: turn.view,
      protocol: turn.entry.protocol,
      telling: tellingOfTrial(turn, closed),
      closed,
      kept,
      history: turn.history,
      correction,
      tookMs: millisecondsOf(clock.monotonic()) - millisecondsOf(detected),
    });
    const { wallName: who, view } = turn;
    const { protocol } = turn.entry;
    const highest = protocol.jump === undefined ? aboveStandingPeak(closed) : undefined;
    const height = jumpHeightOf(protocol, closed.result);
    const shown = {
      verdict,
      who,
      what: view.words,
      ...(highest === undefined ? {} : { highest }),
      ...(height === undefined ? {} : { height }),
    };
    this.#verdicts.set(runtime.id, { ...shown, at: this.#live.now });
    this.#live.tell({ type: 'verdict', verdict } as Message, 'kept');
    this.#live.tellWall();
  }

  /** What a snapshot says of the last verdict is complete now. */
  #nowKept(rig: string, { trial, session, recording }: KeptTrial): void {
    const last = this.#verdicts.get(rig);
    if (last?.verdict.trial !== trial) return;
    const { verdict } = last;
    const evidence = { ...verdict.evidence, recording };
    this.#verdicts.set(rig, { ...last, verdict: { ...verdict, session, evidence } });
  }

  /** The same person stays on the rig: what comes next, and what the next effort is compared with. */
  async #goOn(rig: string, turn: RunningTurn): Promise<void> {
    const entry = this.#live.loaded?.entries.find((one) => one.entry.id === turn.view.entry);
    if (entry === undefined || this.#live.turns.get(rig) !== turn) return;
    turn.entry = entry;
    turn.history = await historyOf(this.#live.lab, entry.person.id, entry.entry.test);
    const effort = entry.remaining[0];
    if (effort === undefined) return;
    turn.view = { ...turn.view, effort, words: effortWords(entry.plan, entry.done, effort) };
    this.#live.tellFloor(rig);
  }

  /** The engine's word on a closed trial: what to say, or a person's decision. */
  verdict(runtime: RigRuntime, output: Extract<EngineOutput, { kind: 'verdict' }>): void {
    const person = this.#live.turns.get(runtime.id)?.enginePerson;
    if (person === undefined) return;
    const key = keyOf(runtime, runtime.test, person, output.trial);
    if (output.correction !== undefined) this.#corrections.set(key, output.correction);
    const { decided } = output;
    if (decided === undefined) return;
    void this.#live.enqueue('A decision', async () => {
      const kept = this.#kept.get(key);
      if (kept === undefined) return;
      const actor: Actor = { by: decided.by, station: 'station' };
      await this.#live.lab.store.decisions.add(
        decided.decision === 'counts'
          ? { trial: kept.trial, kind: 'overrule-counts', payload: {}, reason: decided.reason }
          : { trial: kept.trial, kind: 'exclude', payload: { category: 'live' }, reason: decided.reason },
        actor,
      );
      await this.#live.refresh();
    });
  }

  /** The trial again, with the mean of the empty plates after the turn. */
  reviewed(runtime: RigRuntime, trial: ClosedTrial, test: string): void {
    void this.#live.enqueue('The review of an effort', async () => {
      const kept = this.#kept.get(keyOf(runtime, test, trial.person, trial.trial));
      const origin = kept && (await this.#live.lab.store.origins.ofTrial(kept.trial));
      if (origin === undefined) return;
      await keepReview(this.#live.lab, origin, trial);
      await this.#live.refresh();
    });
  }

  /** A file from a watched folder: a finished effort of whoever's turn it is. */
  fileEnded(runtime: RigRuntime, packets: readonly Packet[]): void {
    const live = this.#live;
    const detected = live.ports.clock.monotonic();
    const { journal } = runtime;
    void live.enqueue('A file', async () => {
      await journal.settled();
      await journal.close();
      await endCapture(live, journal.capture, packets);
      if (!live.turns.has(runtime.id)) await live.nextUp.beginForFile(runtime.id);
      const turn = live.turns.get(runtime.id);
      if (turn === undefined) {
        live.raise({
          severity: 'warning',
          code: 'file-without-turn',
          words: 'A file came when nobody was on the running order. It is safe in the journal and in its folder.',
          next: 'Import it, or add the person and copy it into the folder again.',
          rig: runtime.id,
        });
        return;
      }
      const recipes = runtime.recipesOf(turn.view.test);
      if (recipes === undefined) throw new Error('the test has no method');
      const about = {
        ...pick(recipes),
        number: turn.entry.done.length + 1,
        gravity: live.lab.gravity,
        clock: live.ports.clock,
      };
      const trial = fileTrial(
        packets,
        { entry: turn.entry, kind: turn.view.effort.kind, history: turn.history },
        about,
      );
      const kept = await keepTrial(
        live.lab,
        { ...trial, capture: journal.capture, rig: runtime.id, entry: turn.entry.entry },
        stationActor,
      );
      const { verdict, result, reasons, closeness } = trial.closed;
      const correction = correctionFor(verdict, result.checks, result.reason, reasons, closeness, trial.closed.effort);
      this.#announce(runtime, turn, trial.closed, kept, detected, correction);
      runtime.fileDone('rest');
      live.turns.delete(runtime.id);
      await live.refresh();
      live.tellFloor(runtime.id);
    });
  }
}

/** Highest force above the weight of this very effort, N. */
function aboveStandingPeak({ result, bodyWeight }: ClosedTrial): number | undefined {
  const peak = result.metrics.peak_force;
  const weight = bodyWeight ?? (result.bodyWeight.ok ? result.bodyWeight.value.value : undefined);
  return peak === undefined || !('value' in peak) || weight === undefined ? undefined : peak.value - weight;
}

const pick = ({ method, jumpMethod }: Recipes): Recipes => ({
  method,
  ...(jumpMethod === undefined ? {} : { jumpMethod }),
});

/** Each test counts a person's efforts for itself. */
const keyOf = (runtime: RigRuntime, test: string, person: string, trial: number) =>
  `${runtime.journal.capture} ${test} ${person} ${trial}`;

function effortOf(closed: ClosedTrial, turn: RunningTurn): RunningTurn['view']['effort'] {
  // Keeping may be slower than the next effort on the plates: what closed says itself what it was.
  if (closed.effort === 'maximal' && turn.view.effort.kind === 'maximal') return turn.view.effort;
  return { kind: closed.effort, ...(closed.target === undefined ? {} : { share: closed.target.share }) };
}
