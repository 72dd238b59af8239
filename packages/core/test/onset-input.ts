import type { OnsetInput } from '../src/onset/index.ts';
import { have, lack } from '../src/outcome.ts';
import { meanOf, sdOf } from '../src/signal/index.ts';
import { forcesOfCurve } from './pulls.ts';

/** Input of an onset rule on a curve whose baseline is [0, baselineEnd) and whose half level is given. */
export function onsetInput(
  curve: readonly number[] | Float64Array,
  baselineEnd: number,
  halfLevel: number,
  more: Partial<OnsetInput> = {},
): OnsetInput {
  const total = Float64Array.from(curve);
  let halfRise = total.length - 1;
  while (halfRise >= 0 && (total[halfRise] as number) > halfLevel) halfRise--;
  return {
    forces: forcesOfCurve(total, 1000),
    span: { start: 0, end: total.length },
    baseline: { start: 0, end: baselineEnd, mean: meanOf(total, 0, baselineEnd), sd: sdOf(total, 0, baselineEnd) },
    halfLevel,
    halfRise,
    riseStart: have(Math.max(0, halfRise - 1)),
    end: total.length - 1,
    bodyWeight: lack('no-body-weight'),
    weighted: true,
    ...more,
  };
}
