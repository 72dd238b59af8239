import type { JumpKind, Protocol, TrialResult } from '@sthene/core';

/** What a verdict shows at once, the headline first; everything else stands on the trial's own page. */
const ofPull: readonly string[] = ['peak_force', 'rfd_0_200', 'asymmetry_at_peak'];

/** Of a jump its height, and beside it the time it took on the ground. */
const ofJump: Readonly<Record<JumpKind, readonly string[]>> = {
  countermovement: ['jump_height', 'time_to_take_off', 'rsi_modified'],
  squat: ['jump_height', 'time_to_take_off'],
  drop: ['jump_height', 'contact_time', 'reactive_strength_index'],
  repeated: ['hop_height_best_five', 'hop_contact_time_best_five', 'hop_rsi_best_five'],
};

/** Where the height by impulse is not there, because nobody stood still after a landing. */
const insteadOf: Readonly<Record<string, string>> = { jump_height: 'jump_height_flight_time' };

export const shownMetrics = ({ jump }: Pick<Protocol, 'jump'>): readonly string[] =>
  jump === undefined ? ofPull : ofJump[jump.kind];

/** The shown metrics of a result that it has a value of. Another height keeps its own name and is compared with nothing. */
export function shownValues(
  protocol: Pick<Protocol, 'jump'>,
  { metrics }: Pick<TrialResult, 'metrics'>,
): { readonly metric: string; readonly value: number; readonly unit: string }[] {
  return shownMetrics(protocol).flatMap((wanted) => {
    for (const metric of [wanted, insteadOf[wanted]]) {
      const found = metric === undefined ? undefined : metrics[metric];
      if (metric !== undefined && found !== undefined && 'value' in found)
        return [{ metric, value: found.value, unit: found.unit }];
    }
    return [];
  });
}

/** Height of a jump, m; of hops that of the best. Undefined where none was measured. */
export function jumpHeightOf(
  protocol: Pick<Protocol, 'jump'>,
  result: Pick<TrialResult, 'metrics'>,
): number | undefined {
  if (protocol.jump === undefined) return undefined;
  const [first] = shownValues(protocol, result);
  return first?.unit === 'm' ? first.value : undefined;
}
