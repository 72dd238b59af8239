import { flightRules } from '../../jumps/flight.ts';
import type { JudgedJump } from '../../jumps/found-jumps.ts';
import type { JumpContext } from '../../jumps/jump-context.ts';
import { fromStanding } from '../../jumps/kinds.ts';
import type { JumpMetricDefinition } from '../../jumps/metrics/index.ts';
import { onsetAtSds } from '../../jumps/onset.ts';
import { remade } from '../../jumps/remade.ts';
import { lack, type Outcome } from '../../outcome.ts';

/** The timing parts of a value; what is absent cannot be told. */
export interface Timings {
  readonly onset?: number;
  readonly flight?: number;
}

/**
 * Half the change of each value between neighbouring thresholds, in its unit: of the onset, at 3 and at 5 SD of the quiet second, both
 * with the step back of the criterion; of take-off and touchdown, at the method's own threshold and at the next higher one of those
 * published (at the highest, the next lower), by their newtons in this jump.
 *
 * Both are biases, not random parts: they stand beside the combined uncertainty and are never added to it.
 */
export function eventTiming(judged: JudgedJump): (metric: JumpMetricDefinition) => Timings {
  const { jump } = judged;
  const early = onsetMoved(jump, 3);
  const late = onsetMoved(jump, 5);
  const other = neighbour(judged);
  const half = (one: JumpContext | undefined, two: JumpContext | undefined, metric: JumpMetricDefinition) => {
    if (one === undefined || two === undefined) return undefined;
    const [a, b] = [metric.compute(one), metric.compute(two)];
    return 'value' in a && 'value' in b ? Math.abs(a.value - b.value) / 2 : undefined;
  };
  return (metric) => {
    const onset = metric.dependsOnOnset ? half(early, late, metric) : undefined;
    const flight = half(jump, other, metric);
    return { ...(onset === undefined ? {} : { onset }), ...(flight === undefined ? {} : { flight }) };
  };
}

function onsetMoved(jump: JumpContext, sds: number): JumpContext | undefined {
  const { kind, events, forces } = jump;
  if (!fromStanding.includes(kind)) return undefined;
  const weighing = events.weighing.ok ? events.weighing.value : undefined;
  const found: Outcome<{ readonly index: number }> =
    weighing === undefined
      ? lack('no-quiet-window')
      : onsetAtSds({ forces, kind, weighing, flightSd: events.threshold.flightSd, takeOff: events.takeOff }, sds);
  return found.ok ? remade(jump, { onset: found.value.index, marks: 'found' }) : undefined;
}

/** The jump by the neighbouring threshold of take-off and touchdown. */
function neighbour({ jump, own, under }: JudgedJump): JumpContext | undefined {
  const others = Object.keys(flightRules)
    .filter((flight) => flight !== own.flight)
    .flatMap((flight) => {
      const found = under({ ...own, flight });
      return found === undefined ? [] : [{ newtons: found.events.threshold.value, found }];
    })
    .sort((a, b) => a.newtons - b.newtons);
  const here = jump.events.threshold.value;
  const next = others.find(({ newtons }) => newtons > here) ?? others.findLast(({ newtons }) => newtons < here);
  if (next === undefined) return undefined;
  // A person's onset stays, whatever the threshold.
  const { onset } = jump;
  const byHand = onset.ok && onset.value.rule === 'by-hand';
  return byHand ? remade(next.found, { onset: onset.value.index, marks: 'found' }) : next.found;
}
