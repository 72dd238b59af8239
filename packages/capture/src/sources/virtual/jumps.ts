import { type JumpKind, type SeededRandom, simulateJump, standardGravity } from '@sthene/core';
import { wave } from './curves.ts';
import type { JumpFault, VirtualPerson } from './script.ts';

/** Height of a maximal jump where a person has none, m. */
const usualHeight = 0.3;
/** A submaximal jump reaches this share of it. */
const easy = 0.55;
/** Height of the box people step off, m. */
export const virtualBox = 0.3;

/** Forces under both feet from the cue to standing again, N. */
export interface PlayedJump {
  readonly left: Float64Array;
  readonly right: Float64Array;
}

export interface JumpAsked {
  readonly kind: JumpKind;
  readonly maximal: boolean;
  readonly fault: JumpFault['fault'] | undefined;
}

/**
 * A jump of a virtual person by the simulation, without the noise, breath and drift that go on around it. It begins 0.2 to 0.4 s after
 * it is asked for; from a box with the fall, in which the plates are empty.
 */
export function playedJump(
  person: VirtualPerson,
  { kind, maximal, fault }: JumpAsked,
  shareRight: number,
  rate: number,
  random: SeededRandom,
): PlayedJump {
  const height = (person.jumpHeight ?? usualHeight) * (maximal ? 1 : easy) * (1 + 0.02 * (2 * random.uniform() - 1));
  const seed = Math.floor(random.uniform() * 2 ** 31);
  const jump = (of: JumpKind, quiet: number): PlayedJump =>
    simulateJump(
      {
        kind: of,
        sampleRate: rate,
        mass: person.weight / standardGravity,
        gravity: standardGravity,
        height,
        quiet,
        after: 0.02,
        dip: fault === 'dip' ? 0.05 : 0,
        dropHeight: virtualBox + (fault === 'jump-off' ? 0.15 : 0),
        shareRight,
        sway: 0,
        plateNoise: 0,
      },
      seed,
    );
  const reaction = random.between(0.2, 0.4);
  const first = jump(kind, kind === 'drop' ? reaction + 0.3 : reaction);
  if (fault === 'second-jump') return after(first, jump('countermovement', 0.5));
  if (fault === 'stumble') return after(first, stumbling(person.weight, shareRight, rate));
  return first;
}

function after(first: PlayedJump, then: PlayedJump): PlayedJump {
  const joined = (a: Float64Array, b: Float64Array): Float64Array => {
    const all = new Float64Array(a.length + b.length);
    all.set(a);
    all.set(b, a.length);
    return all;
  };
  return { left: joined(first.left, then.left), right: joined(first.right, then.right) };
}

/** Steps about on the plates for 4 s. */
function stumbling(weight: number, shareRight: number, rate: number): PlayedJump {
  const seconds = 4;
  const total = Float64Array.from({ length: seconds * rate }, (_, i) => {
    const left = 1 - i / (seconds * rate);
    return weight * (1 + 0.25 * Math.min(1, 4 * left) * wave(1.3 * (i / rate)));
  });
  return { left: total.map((force) => force * (1 - shareRight)), right: total.map((force) => force * shareRight) };
}
