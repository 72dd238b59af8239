/** Steps after which a root is as good as it gets. */
const most = 200;

/**
 * Where a continuous function that rises or falls goes through a target between `low` and `high`: false position, with the end that stays
 * weighed half as much (Illinois), and a halving where that would not move. As near as doubles allow, or to 1e-13 of the size.
 */
export function whereItIs(target: number, of: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  let [fa, fb] = [of(a) - target, of(b) - target];
  for (let step = 0; step < most && fa !== 0 && fb !== 0; step++) {
    if (Math.abs(b - a) <= 1e-13 * Math.max(1, Math.abs(a), Math.abs(b))) break;
    const guess = b - (fb * (b - a)) / (fb - fa);
    const inside = guess > Math.min(a, b) && guess < Math.max(a, b);
    const next = inside && step % 4 !== 3 ? guess : (a + b) / 2;
    const value = of(next) - target;
    if (Math.sign(value) === Math.sign(fb)) fa /= 2;
    else [a, fa] = [b, fb];
    [b, fb] = [next, value];
  }
  return fa === 0 ? a : fb === 0 || Math.abs(fb) < Math.abs(fa) ? b : a;
}
