import { standardGravity } from '@sthene/core';

/** Force of one jump under both feet, N, and where it leaves the plates and comes back, in samples. */
export interface JumpCurve {
  readonly total: Float64Array;
  readonly takeOff: number;
  readonly touchdown: number;
}

export interface JumpShape {
  readonly weight: number;
  /** Take-off velocity, m/s. */
  readonly velocity?: number;
  readonly rate?: number;
}

const g = standardGravity;
const half = (x: number): number => (x <= 0 || x >= 1 ? 0 : Math.sin(Math.PI * x));

/** Pieces of force, one after the other; each takes its time in seconds from 0 to its length. */
type Piece = readonly [seconds: number, force: (t: number) => number];

function played(pieces: readonly Piece[], rate: number): Float64Array {
  const out: number[] = [];
  let start = 0;
  for (const [seconds, force] of pieces) {
    const end = start + seconds;
    for (let i = out.length; i / rate < end - 1e-9; i++) out.push(force(i / rate - start));
    start = end;
  }
  return Float64Array.from(out);
}

/**
 * A jump by the impulses it must have: unweighting and push as half sines, a fall of the force in 30 ms, a flight of 2 v / g, a landing
 * that takes the same velocity away. Newton's second law by hand; no measured jump.
 *
 * @param down largest downward velocity of a countermovement, m/s; 0: from a squat
 */
export function jumpCurve({ weight, velocity = 2.5, rate = 1000 }: JumpShape, down = 1.1): JumpCurve {
  const m = weight / g;
  const [lowering, push, letting, landing] = [0.4, 0.5, 0.03, 0.3];
  const unweight = (Math.PI * m * down) / (2 * lowering);
  const strength = (Math.PI * (m * (velocity + down) + (weight * letting) / 2)) / (2 * push);
  const flight = (2 * velocity) / g;
  const impact = (Math.PI * m * velocity) / (2 * landing);
  const before: Piece[] = down > 0 ? [[lowering, (t) => weight - unweight * half(t / lowering)]] : [];
  const pieces: Piece[] = [
    ...before,
    [push, (t) => weight + strength * half(t / push)],
    [letting, (t) => weight * (1 - t / letting)],
    [flight, () => 0],
    [landing, (t) => weight + impact * half(t / landing)],
  ];
  const takeOff = (down > 0 ? lowering : 0) + push + letting;
  return { total: played(pieces, rate), takeOff: takeOff * rate, touchdown: (takeOff + flight) * rate };
}

/** From a box: the fall with empty plates, one contact, flight, landing. */
export function dropCurve({ weight, velocity = 2.2, rate = 1000 }: JumpShape, drop = 0.3, contact = 0.22): JumpCurve {
  const m = weight / g;
  const fall = Math.sqrt((2 * drop) / g);
  const strength = (Math.PI * (m * (g * fall + velocity) + weight * contact)) / (2 * contact);
  const flight = (2 * velocity) / g;
  const landing = 0.3;
  const impact = (Math.PI * m * velocity) / (2 * landing);
  const takeOff = 0.3 + fall + contact;
  return {
    total: played(
      [
        [0.3 + fall, () => 0],
        [contact, (t) => strength * half(t / contact)],
        [flight, () => 0],
        [landing, (t) => weight + impact * half(t / landing)],
      ],
      rate,
    ),
    takeOff: takeOff * rate,
    touchdown: (takeOff + flight) * rate,
  };
}

/** Hops on the spot after a countermovement jump: so many contacts, then a landing. */
export function hopCurve({ weight, velocity = 1.8, rate = 1000 }: JumpShape, hops = 10, contact = 0.2): JumpCurve {
  const m = weight / g;
  const first = jumpCurve({ weight, velocity, rate });
  const flight = (2 * velocity) / g;
  const strength = (Math.PI * (2 * m * velocity + weight * contact)) / (2 * contact);
  const start = first.total.subarray(0, Math.round(first.touchdown));
  const one: Piece[] = [
    [contact, (t) => strength * half(t / contact)],
    [flight, () => 0],
  ];
  const landing = 0.3;
  const impact = (Math.PI * m * velocity) / (2 * landing);
  const rest = played(
    [
      ...Array.from({ length: hops }, () => one).flat(),
      [landing, (t: number) => weight + impact * half(t / landing)] as Piece,
    ],
    rate,
  );
  const total = new Float64Array(start.length + rest.length);
  total.set(start);
  total.set(rest, start.length);
  return { total, takeOff: first.takeOff, touchdown: first.touchdown };
}
