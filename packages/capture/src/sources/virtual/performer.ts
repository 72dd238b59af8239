import { faultById, type JumpKind, type PullSpec, type SeededRandom, seededRandom, simulatePull } from '@sthene/core';
import { smooth, wave } from './curves.ts';
import { playedJump } from './jumps.ts';
import type { PlateSide, VirtualPerson, VirtualScript } from './script.ts';

/** Seconds from the first contact to full weight, from the first to the second foot, and to leave. */
const arriving = 0.45;
const secondFoot = 0.5;
const leaving = 0.3;
/** Letting go of a bar before the planned end, s. */
const lettingGo = 0.3;
/** Less than this on both plates is no breathing person, N. */
const leastLoaded = 50;
const breathingRate = 0.28; // Hz, about 17 breaths a minute
const tremorRate = 8; // Hz

interface Standing {
  readonly person: VirtualPerson;
  readonly since: number;
  /** Both feet on one plate. */
  readonly on?: PlateSide | undefined;
  leavesAt?: number;
}

/** A simulated pull as it is being played. */
interface Playing {
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly from: number;
  readonly range: number;
  /** In the air nobody breathes on the plates, and nobody can let go. */
  readonly jump: boolean;
  letGoAt?: number;
}

/**
 * Whoever is on the plates, sample by sample: steps on, breathes, takes the bar, pulls, steps off. The pull is the simulation's;
 * everything around it joins it without a jump. Time is the sample index; what is to happen later waits in samples.
 */
export class Performer {
  /** Index of the next sample. */
  now = 0;
  /** Before a jump people are told to stand still, and breathe flat. */
  holdsStill = false;
  readonly #script: VirtualScript;
  readonly #rate: number;
  readonly #random: SeededRandom;
  readonly #maximal = new Map<VirtualPerson, number>();
  #later: { readonly at: number; readonly act: () => void }[] = [];
  #standing: Standing | undefined;
  #playing: Playing | undefined;
  #tension = { from: 0, to: 0, since: 0 };

  /** Throws for a fault the simulation does not know. */
  constructor(script: VirtualScript, seed: number, rate: number) {
    for (const { faults } of script.people) for (const { fault } of faults ?? []) faultById(fault);
    this.#script = script;
    this.#rate = rate;
    this.#random = seededRandom(seed, 21);
  }

  /** Who is on the plates, unless on the way off. */
  get person(): VirtualPerson | undefined {
    return this.#standing?.leavesAt === undefined ? this.#standing?.person : undefined;
  }

  get pulling(): boolean {
    return this.#playing !== undefined;
  }

  /** Does something so many seconds from now, drawn between two limits. */
  after(low: number, high: number, act: () => void): void {
    const at = this.now + Math.round(this.#random.between(low, high) * this.#rate);
    this.#later.push({ at, act });
    this.#later.sort((a, b) => a.at - b.at);
  }

  /** Forgets what was going to happen. */
  forget(): void {
    this.#later = [];
  }

  /** Steps on, with both feet on one plate where that is said; whoever stands there, or elsewhere, steps off first. */
  stepOn(person: VirtualPerson, on?: PlateSide): void {
    if (this.person === person && this.#standing?.on === on) return;
    if (this.#standing !== undefined) {
      this.stepOff();
      this.after(1.5, 2, () => this.stepOn(person, on));
      return;
    }
    this.#standing = { person, since: this.now, on };
    this.takeBar(0);
  }

  /** Lets go of the bar and steps off. */
  stepOff(): void {
    const standing = this.#standing;
    if (standing === undefined || standing.leavesAt !== undefined) return;
    this.letGo();
    this.takeBar(0);
    const { from, left, jump } = this.#playing ?? { from: 0, left: { length: 0 }, jump: false };
    const wait = this.pulling ? lettingGo : 0;
    standing.leavesAt = jump ? from + left.length : this.now + Math.round(wait * this.#rate);
  }

  /** Changes the pull on the bar while standing, N. */
  takeBar(newtons: number): void {
    this.#tension = { from: this.#bar(this.now), to: newtons, since: this.now };
  }

  /** Ends a pull that is under way. */
  letGo(): void {
    if (this.#playing !== undefined && !this.#playing.jump) this.#playing.letGoAt ??= this.now;
  }

  /**
   * Pulls, the rise beginning 0.2 to 0.4 s from now.
   * @param gross force to aim at, N; absent: a maximal effort, with the fault of that attempt
   */
  pull(gross?: number): void {
    const { person } = this;
    if (person === undefined || this.pulling) return;
    const before = this.#random.between(0.2, 0.4);
    const vary = 1 + 0.02 * (2 * this.#random.uniform() - 1);
    const hold = (this.#script.pullSeconds ?? 5) + this.#random.between(-0.3, 0.3);
    const seed = Math.floor(this.#random.uniform() * 2 ** 31);
    const share = person.shareRight ?? 0.5;
    const spec: PullSpec = {
      sampleRate: this.#rate,
      limbs: this.#script.limbs ?? 'both',
      bodyWeight: person.weight,
      netForce: gross === undefined ? person.strength * vary : Math.max(1, gross - person.weight),
      hold,
      pace: person.pace ?? 'fast',
      // A good pull of this form raises no check; of the others a few do (see the table of truth).
      form: 'power-exponential',
      tension: this.#bar(this.now),
      standingShareRight: share,
      pullShareRight: share,
      plateRange: this.#script.plateRange ?? 10_000,
      // Breathing, drift and noise go on through the pull and are added here.
      breathing: 0,
      drift: 0,
      plateNoise: 0,
      ...(gross === undefined ? this.#fault(person) : {}),
    };
    const simulated = simulatePull(spec, seed);
    const skip = Math.max(0, Math.round(simulated.truth.onset.sample - before * this.#rate));
    this.#playing = {
      left: simulated.left.subarray(skip),
      right: simulated.right.subarray(skip),
      from: this.now,
      range: simulated.truth.parameters.plateRange,
      jump: false,
    };
    this.#tension = { from: 0, to: 0, since: this.now };
  }

  /**
   * Jumps 0.2 to 0.4 s from now; whoever comes from a box stands on the plates afterwards.
   * @param maximal with all strength, with the fault of that attempt
   */
  jump(person: VirtualPerson, kind: JumpKind, maximal: boolean): void {
    const fromBox = kind === 'drop';
    if (this.pulling || (fromBox ? this.#standing !== undefined : this.person !== person)) return;
    const fault = maximal ? this.#jumpFault(person) : undefined;
    if (fault === 'step-off') {
      this.after(0.2, 0.4, () => this.stepOff());
      return;
    }
    const share = this.#share(person);
    const { left, right } = playedJump(person, { kind, maximal, fault }, share, this.#rate, this.#random);
    const range = this.#script.plateRange ?? 10_000;
    this.#playing = { left, right, from: this.now, range, jump: true };
    // Long enough ago to stand with the whole weight.
    if (fromBox) this.#standing = { person, since: this.now - this.#rate };
    this.#tension = { from: 0, to: 0, since: this.now };
  }

  #jumpFault(person: VirtualPerson): NonNullable<VirtualPerson['jumpFaults']>[number]['fault'] | undefined {
    const attempt = (this.#maximal.get(person) ?? 0) + 1;
    this.#maximal.set(person, attempt);
    return person.jumpFaults?.find((fault) => fault.attempt === attempt)?.fault;
  }

  #fault(person: VirtualPerson): Pick<PullSpec, 'fault' | 'severity'> {
    const attempt = (this.#maximal.get(person) ?? 0) + 1;
    this.#maximal.set(person, attempt);
    const found = person.faults?.find((fault) => fault.attempt === attempt);
    if (found === undefined) return {};
    return { fault: found.fault, ...(found.severity === undefined ? {} : { severity: found.severity }) };
  }

  /** Forces under both feet for the next sample, N; NaN where the simulated fault lost it. */
  next(): { left: number; right: number } {
    while (this.#later[0] !== undefined && this.#later[0].at <= this.now) this.#later.shift()?.act();
    const n = this.now;
    const feet = this.#feet(n);
    this.now = n + 1;
    return feet;
  }

  #feet(n: number): { left: number; right: number } {
    const standing = this.#standing;
    if (standing === undefined) return { left: 0, right: 0 };
    const { person, since, leavesAt } = standing;
    const off = leavesAt === undefined ? 0 : smooth(this.#seconds(n - leavesAt) / leaving);
    if (off === 1) {
      this.#standing = undefined;
      this.#playing = undefined;
      return { left: 0, right: 0 };
    }
    const on = smooth(this.#seconds(n - since) / arriving) * (1 - off);
    const seconds = this.#seconds(n);
    const tremor = on * (person.tremor ?? 0) * wave(seconds * tremorRate);
    const breathing = on * (person.breathing ?? (this.holdsStill ? 0.8 : 3)) * wave(seconds * breathingRate) + tremor;
    const share = this.#share(person);
    // On the right alone the first foot is there already.
    const shareRight = share === 1 ? 1 : share * smooth((this.#seconds(n - since) - secondFoot) / 0.25);
    const still = on * (person.weight + this.#bar(n));
    const calm = { left: still * (1 - shareRight), right: still * shareRight };
    const feet = this.#played(n, calm) ?? calm;
    const range = this.#playing?.range ?? Number.POSITIVE_INFINITY;
    const inTheAir = this.#playing?.jump === true && feet.left + feet.right < leastLoaded;
    const breath = inTheAir ? 0 : breathing;
    return {
      left: Math.min(range, feet.left + breath * (1 - shareRight)),
      right: Math.min(range, feet.right + breath * shareRight),
    };
  }

  #played(n: number, calm: { left: number; right: number }): { left: number; right: number } | undefined {
    const playing = this.#playing;
    if (playing === undefined) return undefined;
    const i = n - playing.from;
    const gone = playing.letGoAt === undefined ? 0 : smooth(this.#seconds(n - playing.letGoAt) / lettingGo);
    if (i >= playing.left.length || gone === 1) {
      this.#playing = undefined;
      return undefined;
    }
    const blend = (pull: number, still: number) => still + (pull - still) * (1 - gone);
    return { left: blend(playing.left[i]!, calm.left), right: blend(playing.right[i]!, calm.right) };
  }

  #share(person: VirtualPerson): number {
    const limbs = this.#standing?.on ?? this.#script.limbs;
    if (limbs === 'left') return 0;
    return limbs === 'right' ? 1 : (person.shareRight ?? 0.5);
  }

  #bar(n: number): number {
    const { from, to, since } = this.#tension;
    return from + (to - from) * smooth(this.#seconds(n - since) / 0.4);
  }

  #seconds(samples: number): number {
    return samples / this.#rate;
  }
}
