import type { EngineOutput } from '../../engine/index.ts';
import type { Performer } from './performer.ts';
import type { VirtualPerson } from './script.ts';

/** Pull on the bar while waiting for the cue, N: well inside the band. */
const barTension = 10;

/** Weights closer than this are the same person's, as a share. */
const sameWeight = 0.02;

type PhaseOutput = Extract<EngineOutput, { kind: 'phase' }>;

/**
 * Lets the people of a script follow what the live engine says, as people on a rig follow their screen: on the plates when they
 * are called and the zero is taken, still while weighed, bar in hand when ready, a pull when the cue sounded, off when done.
 */
export class Reactions {
  readonly #performer: Performer;
  readonly #people: readonly VirtualPerson[];
  readonly #known = new Map<string, VirtualPerson>();
  /** In which turn each person was last on the plates. */
  readonly #lastTurn = new Map<VirtualPerson, number>();
  #phase: PhaseOutput | undefined;
  /** Who was called in the turn under way. */
  #called: { readonly turn: number; readonly person: VirtualPerson } | undefined;

  constructor(performer: Performer, people: readonly VirtualPerson[]) {
    this.#performer = performer;
    this.#people = people;
    for (const person of people) if (person.ref !== undefined) this.#known.set(person.ref, person);
  }

  /** Somebody who was here on another day, or before a restart, is known again by weight. */
  expect(ref: string, bodyWeight: number): void {
    if (this.#known.has(ref)) return;
    // Also where somebody else was dealt the same one before: what was measured of both is then the same body.
    const same = this.#people.find(({ weight }) => Math.abs(weight - bodyWeight) <= sameWeight * bodyWeight);
    if (same !== undefined) this.#known.set(ref, same);
  }

  notice(output: EngineOutput): void {
    if (output.kind === 'phase') {
      this.#phase = output;
      this.#inPhase(output);
    } else if (output.kind === 'turn-ended') this.#called = undefined;
    else if (output.kind === 'mark' && output.label === 'cue') this.#go();
    else if (output.kind === 'guidance' && output.code === 'onto-the-box') {
      const turn = this.#phase?.turn;
      this.#performer.after(0.8, 1.2, () => {
        if (this.#phase?.turn === turn && this.#phase?.phase === 'set-up') this.#performer.stepOff();
      });
    } else if (output.kind === 'guidance' && output.code === 'relax') this.#relax();
    else if (output.kind === 'guidance' && output.code === 'step-on') {
      // To be weighed they come by themselves; a weight that stands leaves them to be called.
      if (this.#phase?.phase === 'rest') this.#come();
    } else if (output.kind === 'guidance' && (output.code === 'step-off' || output.code === 'step-back-on')) {
      if (output.code === 'step-off') this.#leave(0.3);
      else this.#come();
    }
  }

  /** The effort that was cued. */
  #go(): void {
    const { jump, effort } = this.#phase ?? {};
    if (jump === undefined) {
      this.#performer.pull(effort?.target?.aim);
      return;
    }
    const person = this.#called?.person;
    if (person !== undefined) this.#performer.jump(person, jump, effort?.kind === 'maximal');
  }

  #inPhase({ phase, because, effort, jump, goesOn }: PhaseOutput): void {
    const performer = this.#performer;
    performer.holdsStill = jump !== undefined;
    switch (phase) {
      case 'waiting':
      case 'zero':
        this.#leave(0.4);
        return;
      case 'stand-still':
        this.#come();
        return;
      case 'set-up':
        this.#stay(because);
        performer.takeBar(0);
        if (performer.person === undefined) this.#come();
        return;
      case 'ready':
        if (jump !== undefined) return;
        performer.after(0.2, 0.5, () => this.#takeBar());
        return;
      case 'verdict':
        // Whoever was stopped lets go; whoever let go themselves is left alone.
        if (because !== 'released') performer.letGo();
        performer.takeBar(0);
        return;
      case 'rest':
        // Nothing left to do: off, after the words were read.
        if (effort === undefined && goesOn !== true) this.#leave(1);
        this.#stay(because);
        return;
      case 'cue':
      case 'pull':
      case 'jump':
        return;
    }
  }

  #takeBar(): void {
    const phase = this.#phase?.phase;
    if (phase === 'ready' || phase === 'cue') this.#performer.takeBar(barTension);
  }

  #relax(): void {
    if (this.#phase?.jump !== undefined) return;
    this.#performer.takeBar(0);
    this.#performer.after(2, 3, () => this.#takeBar());
  }

  #come(): void {
    const person = this.#personOf(this.#phase?.person);
    const turn = this.#phase?.turn;
    if (person === undefined) return;
    this.#performer.after(0.6, 1.2, () => {
      const now = this.#phase;
      if (now?.turn === turn && now?.phase !== 'waiting' && now?.phase !== 'zero') this.#performer.stepOn(person);
    });
  }

  /** The next test follows at once: nobody leaves who was about to. Whose turn it is is known from the test before. */
  #stay(because: string): void {
    if (because !== 'stayed-on') return;
    this.#performer.forget();
    const { turn, person: ref } = this.#phase ?? {};
    const person = ref === undefined ? undefined : this.#known.get(ref);
    if (turn !== undefined && person !== undefined) this.#called = { turn, person };
  }

  #leave(delay: number): void {
    // Second thoughts of the turn before are not for this one.
    this.#performer.forget();
    this.#performer.after(delay, delay + 0.4, () => this.#performer.stepOff());
  }

  /**
   * The person of a reference. Within a turn it stays the same one, also when the engine learns only from the weighing who it
   * is. Else their own; or the first of the script that nobody is yet; or, for somebody unknown when all are known, whoever
   * has waited longest.
   */
  #personOf(ref: string | undefined): VirtualPerson | undefined {
    const turn = this.#phase?.turn;
    if (ref === undefined || turn === undefined) return undefined;
    const person = this.#called?.turn === turn ? this.#called.person : (this.#known.get(ref) ?? this.#nextOf());
    if (person === undefined) return undefined;
    this.#known.set(ref, person);
    this.#called = { turn, person };
    this.#lastTurn.set(person, turn);
    return person;
  }

  #nextOf(): VirtualPerson | undefined {
    const taken = new Set(this.#known.values());
    const free = this.#people.find((person) => !taken.has(person));
    const waited = (person: VirtualPerson) => this.#lastTurn.get(person) ?? 0;
    return free ?? [...this.#people].sort((a, b) => waited(a) - waited(b))[0];
  }
}
