import type { JumpParameters } from './parameters.ts';
import { movement, type Node, type State } from './pieces.ts';

/** A stretch of a jump: on the ground by its movement, or in the air. */
export type Stretch =
  | { readonly on: 'ground'; readonly start: number; readonly end: number; readonly at: (time: number) => State }
  | { readonly on: 'air'; readonly start: number; readonly end: number };

/** What is known of a simulated jump without measuring it. Times in s from its beginning. */
export interface JumpScript {
  readonly stretches: readonly Stretch[];
  /** When the movement begins; of a drop jump and hops the first touchdown on the plates that matters. */
  readonly onset: number;
  readonly takeOff: number;
  readonly touchdown: number;
  readonly takeOffVelocity: number;
  /** Contacts of a drop jump or a series: touchdown, take-off, next touchdown. */
  readonly contacts: readonly (readonly [number, number, number])[];
  readonly end: number;
}

const straight = (time: number, acceleration: number): Node => ({ time, acceleration, shape: 'straight' });
const smooth = (time: number, acceleration: number): Node => ({ time, acceleration, shape: 'smooth' });

/** Velocity that rises by a height, m/s. */
const speedFor = (height: number, gravity: number): number => Math.sqrt(2 * gravity * height);

/** Time in the air from a velocity upward to a place so much lower, s. */
const airTime = (velocity: number, drop: number, gravity: number): number =>
  (velocity + Math.sqrt(velocity * velocity + 2 * gravity * drop)) / gravity;

/** The script of a jump. Nothing in it is random. */
export function jumpScript(p: JumpParameters): JumpScript {
  if (p.kind === 'drop') return dropScript(p);
  if (p.kind === 'repeated') return hopScript(p);
  return standingScript(p);
}

/** From rest to take-off: the height of both force peaks follows from the velocity that is asked for. */
function pushNodes(
  p: JumpParameters,
  begin: number,
  velocity: number,
): { readonly nodes: Node[]; readonly end: number } {
  const g = p.gravity;
  const nodes: Node[] = [smooth(begin, 0)];
  let time = begin;
  let gained = 0;
  if (p.kind === 'countermovement') {
    nodes.push(smooth(time + 0.55 * p.unloadTime, -p.unload * g), smooth(time + p.unloadTime, 0));
    gained -= (p.unload * g * p.unloadTime) / 2;
    time += p.unloadTime;
  } else if (p.dip > 0) {
    // Down and back to rest by two opposite humps of twice t: the velocity between them is -a t, the way 2 a t^2.
    const t = 0.12;
    const a = p.dip / (2 * t * t);
    nodes.push(smooth(time + t, -a), smooth(time + 2 * t, 0), smooth(time + 3 * t, a), smooth(time + 4 * t, 0));
    time += 4 * t;
  }
  // The second peak is a tenth higher than the first: the area of the three pieces must give the velocity.
  const [brake, push, leave] = [p.brakeTime, p.pushTime, p.leaveTime];
  const area = brake / 2 + ((1 + 1.1) / 2) * push + (1.1 / 2) * leave;
  const peak = (velocity - gained + (g * leave) / 2) / area;
  nodes.push(
    smooth(time + brake, peak),
    smooth(time + brake + push, 1.1 * peak),
    straight(time + brake + push + leave, -g),
  );
  return { nodes, end: time + brake + push + leave };
}

/** From a touchdown to rest: a hard peak, a soft shoulder, and down to weight. */
function landingNodes(
  p: JumpParameters,
  begin: number,
  velocity: number,
): { readonly nodes: Node[]; readonly end: number } {
  const g = p.gravity;
  const [hit, give, rest] = [0.14 * p.landingTime, 0.2 * p.landingTime, 0.66 * p.landingTime];
  const share = 0.35;
  // velocity + (-g + a) hit / 2 + (a + share a) give / 2 + share a rest / 2 = 0
  const peak = (-velocity + (g * hit) / 2) / (hit / 2 + ((1 + share) * give) / 2 + (share * rest) / 2);
  return {
    nodes: [
      straight(begin, -g),
      straight(begin + hit, peak),
      smooth(begin + hit + give, share * peak),
      smooth(begin + p.landingTime, 0),
    ],
    end: begin + p.landingTime,
  };
}

/** A contact between two flights: one hump from nothing to nothing. */
function contactNodes(
  p: JumpParameters,
  begin: number,
  down: number,
  up: number,
): { readonly nodes: Node[]; readonly end: number } {
  const g = p.gravity;
  const t = p.contactTime;
  // A rise and a fall of a quarter each, a flat middle half: down + 0.75 t peak - t g / 4 = up.
  const peak = (up - down + (g * t) / 4) / (0.75 * t);
  return {
    nodes: [
      straight(begin, -g),
      smooth(begin + 0.25 * t, peak),
      smooth(begin + 0.75 * t, peak),
      straight(begin + t, -g),
    ],
    end: begin + t,
  };
}

const ground = (nodes: readonly Node[], velocity: number): Stretch => ({
  on: 'ground',
  start: (nodes[0] as Node).time,
  end: (nodes.at(-1) as Node).time,
  at: movement(nodes, { velocity, position: 0 }),
});

const still = (start: number, end: number): Stretch => ({
  on: 'ground',
  start,
  end,
  at: () => ({ acceleration: 0, velocity: 0, position: 0 }),
});

function standingScript(p: JumpParameters): JumpScript {
  const velocity = speedFor(p.height, p.gravity);
  const push = pushNodes(p, p.quiet, velocity);
  const air = airTime(velocity, p.landingDrop, p.gravity);
  const touchdown = push.end + air;
  const landing = landingNodes(p, touchdown, velocity - p.gravity * air);
  const end = landing.end + p.after;
  return {
    stretches: [
      still(0, p.quiet),
      ground(push.nodes, 0),
      { on: 'air', start: push.end, end: touchdown },
      ground(landing.nodes, velocity - p.gravity * air),
      still(landing.end, end),
    ],
    onset: p.quiet,
    takeOff: push.end,
    touchdown,
    takeOffVelocity: velocity,
    contacts: [],
    end,
  };
}

function dropScript(p: JumpParameters): JumpScript {
  const velocity = speedFor(p.height, p.gravity);
  const down = -speedFor(p.dropHeight, p.gravity);
  const first = contactNodes(p, p.quiet, down, velocity);
  const air = airTime(velocity, p.landingDrop, p.gravity);
  const touchdown = first.end + air;
  const landing = landingNodes(p, touchdown, velocity - p.gravity * air);
  const end = landing.end + p.after;
  return {
    stretches: [
      { on: 'air', start: 0, end: p.quiet },
      ground(first.nodes, down),
      { on: 'air', start: first.end, end: touchdown },
      ground(landing.nodes, velocity - p.gravity * air),
      still(landing.end, end),
    ],
    onset: p.quiet,
    takeOff: first.end,
    touchdown,
    takeOffVelocity: velocity,
    contacts: [[p.quiet, first.end, touchdown]],
    end,
  };
}

/** A jump from standing that starts the series, then hops of equal height, then a landing. */
function hopScript(p: JumpParameters): JumpScript {
  const velocity = speedFor(p.height, p.gravity);
  const push = pushNodes({ ...p, kind: 'countermovement' }, p.quiet, velocity);
  const air = airTime(velocity, 0, p.gravity);
  const stretches: Stretch[] = [still(0, p.quiet), ground(push.nodes, 0)];
  const contacts: [number, number, number][] = [];
  let time = push.end;
  stretches.push({ on: 'air', start: time, end: time + air });
  time += air;
  for (let i = 0; i < p.hops; i++) {
    const contact = contactNodes(p, time, -velocity, velocity);
    stretches.push(ground(contact.nodes, -velocity), { on: 'air', start: contact.end, end: contact.end + air });
    contacts.push([time, contact.end, contact.end + air]);
    time = contact.end + air;
  }
  const landing = landingNodes(p, time, -velocity);
  const end = landing.end + p.after;
  stretches.push(ground(landing.nodes, -velocity), still(landing.end, end));
  const [touchdown, takeOff, next] = contacts[0] ?? [push.end, push.end, push.end + air];
  return { stretches, onset: touchdown, takeOff, touchdown: next, takeOffVelocity: velocity, contacts, end };
}
