/** A node of an acceleration: a at time t; from the node before it goes there in a straight line, or without a corner. */
export interface Node {
  readonly time: number;
  readonly acceleration: number;
  readonly shape: 'straight' | 'smooth';
}

/** Where a body is at an instant of a movement on the ground: m/s^2, m/s, m. */
export interface State {
  readonly acceleration: number;
  readonly velocity: number;
  readonly position: number;
}

/**
 * A vertical movement whose acceleration goes from node to node. Velocity and position are its exact integrals, so that whatever is
 * asked of the movement is known without sampling it.
 *
 * Over a piece of length T from a0 to a1, with u from 0 to 1: straight, a = a0 + d u, v = v0 + T (a0 u + d u^2 / 2), s = s0 + v0 T u +
 * T^2 (a0 u^2 / 2 + d u^3 / 6); smooth, a = a0 + d (3 u^2 - 2 u^3), v = v0 + T (a0 u + d (u^3 - u^4 / 2)), s = s0 + v0 T u +
 * T^2 (a0 u^2 / 2 + d (u^4 / 4 - u^5 / 10)).
 *
 * @param start state at the first node; its acceleration is that node's
 */
export function movement(nodes: readonly Node[], start: Pick<State, 'velocity' | 'position'>): (time: number) => State {
  const states: State[] = [];
  nodes.forEach((node, i) => {
    const before = nodes[i - 1];
    const from = states[i - 1];
    states.push(before && from ? along(before, node, from, 1) : { ...start, acceleration: node.acceleration });
  });
  const first = nodes[0] as Node;
  const last = nodes.length - 1;
  return (time) => {
    if (time <= first.time) return states[0] as State;
    let i = 1;
    while (i < last && time > (nodes[i] as Node).time) i++;
    const [before, after] = [nodes[i - 1] as Node, nodes[i] as Node];
    const share = Math.min(1, (time - before.time) / (after.time - before.time));
    return along(before, after, states[i - 1] as State, share);
  };
}

function along(before: Node, after: Node, from: State, u: number): State {
  const length = after.time - before.time;
  const a = before.acceleration;
  const d = after.acceleration - a;
  const u2 = u * u;
  const u3 = u2 * u;
  const smooth = after.shape === 'smooth';
  const rise = smooth ? 3 * u2 - 2 * u3 : u;
  const area = smooth ? u3 - (u2 * u2) / 2 : u2 / 2;
  const way = smooth ? (u2 * u2) / 4 - (u3 * u2) / 10 : u3 / 6;
  return {
    acceleration: a + d * rise,
    velocity: from.velocity + length * (a * u + d * area),
    position: from.position + from.velocity * length * u + length * length * ((a * u2) / 2 + d * way),
  };
}
