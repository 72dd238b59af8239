import type { Machine } from './machine.ts';
import type { RefusalCode } from './refusal.ts';

/** Why no effort may begin now; undefined when it may. The same gates hold for a person's order and for hands-free. */
export function gateOf(machine: Machine): RefusalCode | undefined {
  const { turn, effort, weighted } = machine;
  if (turn === undefined) return 'no-turn';
  if (machine.signal === 'down') return 'signal-lost';
  if (turn.held) return 'held';
  if (effort.kind === 'none') {
    if (effort.because === 'complete') return 'nothing-planned';
    return effort.because === 'pain-stopped' ? 'pain-stopped' : 'not-cleared';
  }
  // Whoever stands there is still being looked at, also in a test that begins from a box.
  if (turn.glance !== undefined)
    return machine.presence.on && turn.away === undefined ? 'not-identified' : 'not-on-plates';
  if (machine.fromBox) {
    // The rest may be spent anywhere; before the cue nothing touches the plates.
    if (machine.phase !== 'rest' && machine.presence.on) return 'on-plates';
  } else if (weighted && (!machine.presence.on || turn.away !== undefined)) return 'not-on-plates';
  if (!turn.zeroed || (weighted && turn.weighing === undefined)) return 'not-now';
  if (machine.openQuestion('is-this-the-athlete') !== undefined) return 'question-open';
  if (turn.unknown) return 'not-identified';
  if (machine.rateUnchecked) return 'rate-unchecked';
  if (turn.person.rest !== undefined && !turn.person.rest.over) return 'rest-not-over';
  return undefined;
}
