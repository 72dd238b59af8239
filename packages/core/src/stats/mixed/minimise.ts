import { Matrix, solve } from 'ml-matrix';

type Target = (x: readonly number[]) => number;

/**
 * Smallest value of a smooth function: Nelder and Mead's simplex from the best of several beginnings, then Newton steps by central
 * differences while they still help.
 */
export function minimise(target: Target, beginnings: readonly (readonly number[])[]): readonly number[] {
  let best = beginnings.reduce((a, b) => (target(b) < target(a) ? b : a));
  // A simplex can shrink too early; a fresh one at its end sees that.
  for (let round = 0; round < 4; round++) {
    const next = simplex(target, best, round === 0 ? 0.5 : 0.05);
    const gained = target(best) - target(next);
    best = next;
    if (round > 0 && gained < 1e-9) break;
  }
  for (let step = 0; step < 6; step++) {
    const next = newton(target, best);
    if (next === undefined || target(next) >= target(best)) break;
    best = next;
  }
  return best;
}

function simplex(target: Target, from: readonly number[], size: number): readonly number[] {
  const points = [
    from,
    ...from.map((_, i) => from.map((value, j) => (i === j ? value + size * Math.max(0.1, Math.abs(value)) : value))),
  ].map((at) => ({ at, value: target(at) }));
  const along = (from: readonly number[], to: readonly number[], t: number) =>
    from.map((value, i) => value + t * ((to[i] as number) - value));
  for (let step = 0; step < 400 * from.length; step++) {
    points.sort((a, b) => a.value - b.value);
    const best = points[0] as (typeof points)[number];
    const worst = points.at(-1) as (typeof points)[number];
    const second = points.at(-2) as (typeof points)[number];
    if (worst.value - best.value < 1e-11 * (1 + Math.abs(best.value))) break;
    const middle = from.map(
      (_, i) => points.slice(0, -1).reduce((sum, { at }) => sum + (at[i] as number), 0) / from.length,
    );
    const tried = (t: number) => {
      const at = along(middle, worst.at, t);
      return { at, value: target(at) };
    };
    const reflected = tried(-1);
    if (reflected.value < best.value) {
      const expanded = tried(-2);
      points[points.length - 1] = expanded.value < reflected.value ? expanded : reflected;
    } else if (reflected.value < second.value) points[points.length - 1] = reflected;
    else {
      const contracted = tried(reflected.value < worst.value ? -0.5 : 0.5);
      if (contracted.value < Math.min(worst.value, reflected.value)) points[points.length - 1] = contracted;
      else
        for (let i = 1; i < points.length; i++) {
          const at = along(best.at, (points[i] as (typeof points)[number]).at, 0.5);
          points[i] = { at, value: target(at) };
        }
    }
  }
  return points.reduce((a, b) => (b.value < a.value ? b : a)).at;
}

/** One Newton step; undefined where the surface does not curve up. */
function newton(target: Target, at: readonly number[]): readonly number[] | undefined {
  const { gradient, hessian } = derivatives(target, at);
  try {
    const step = solve(new Matrix(hessian.map((row) => [...row])), Matrix.columnVector([...gradient]));
    const next = at.map((value, i) => value - step.get(i, 0));
    return next.every(Number.isFinite) ? next : undefined;
  } catch {
    return undefined;
  }
}

/** Gradient and second derivatives by central differences. */
export function derivatives(target: Target, at: readonly number[], relative = 1e-4) {
  const h = at.map((value) => relative * Math.max(0.01, Math.abs(value)));
  const moved = (...moves: readonly (readonly [number, number])[]) => {
    const to = [...at];
    for (const [i, by] of moves) to[i] = (to[i] as number) + by * (h[i] as number);
    return target(to);
  };
  const centre = target(at);
  const gradient = at.map((_, i) => (moved([i, 1]) - moved([i, -1])) / (2 * (h[i] as number)));
  const hessian = at.map((_, i) =>
    at.map((_, j) => {
      const area = (h[i] as number) * (h[j] as number);
      if (i === j) return (moved([i, 1]) - 2 * centre + moved([i, -1])) / area;
      const corners = moved([i, 1], [j, 1]) - moved([i, 1], [j, -1]) - moved([i, -1], [j, 1]) + moved([i, -1], [j, -1]);
      return corners / (4 * area);
    }),
  );
  return { gradient, hessian };
}
