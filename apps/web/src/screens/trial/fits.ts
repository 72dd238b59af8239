import { type CurveModel, instantOf, wholeOf } from '../../curve/model.ts';
import type { View } from '../../curve/view.ts';
import { jumpSpan } from './jump-evidence.ts';
import { onsetOf, type Result } from './numbers.ts';

/** The stretch that shows the whole effort with its baseline. */
export function effortView(model: CurveModel, result: Result): View {
  const { events, jump } = result;
  if (jump) {
    const { start, end } = jumpSpan(result, jump);
    return { from: instantOf(model, start) - 0.5, to: instantOf(model, end) + 0.5 };
  }
  if (!events) return wholeOf(model);
  const baseline = onsetOf(result)?.baseline ?? (events.baseline.ok ? events.baseline.value : undefined);
  const first = baseline?.start ?? events.halfRise - 1.5 * model.rate;
  return { from: instantOf(model, first) - 0.25, to: instantOf(model, events.end) + 0.6 };
}

/** The stretch that shows the rise: from just before the onset to 0.4 s after it; of a jump, up to the take-off. */
export function riseView(model: CurveModel, result: Result): View {
  const { jump } = result;
  if (jump)
    return {
      from: instantOf(model, jumpSpan(result, jump).start) - 0.1,
      to: instantOf(model, jump.takeOff) + 0.1,
    };
  const at = onsetOf(result)?.index ?? result.events?.halfRise;
  if (at === undefined) return wholeOf(model);
  return { from: instantOf(model, at) - 0.15, to: instantOf(model, at) + 0.4 };
}

/** A view that shows a stretch with as much again around it. */
export function spanView(model: CurveModel, span: { start: number; end: number }): View {
  const from = instantOf(model, span.start);
  const to = instantOf(model, span.end);
  const air = Math.max(0.1, (to - from) * 0.5);
  return { from: from - air, to: to + air };
}
