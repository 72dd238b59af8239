import { type Packet, type Phase, sayings } from '@sthene/capture';
import type { RigFloor, RigState } from '@sthene/contract';

/** What a source says of itself as the state of its rig. */
export const stateOfStatus: Readonly<Record<Extract<Packet, { kind: 'status' }>['state'], RigState>> = {
  connecting: 'starting',
  connected: 'measuring',
  quiet: 'quiet',
  lost: 'lost',
  returned: 'measuring',
  'wrong-device': 'faulty',
  'wrong-rate': 'faulty',
  ended: 'closed',
};

/** The plates send nothing: whoever stands on them waits. */
export const isSilent = ({ state }: { readonly state: RigState }): boolean => state === 'quiet' || state === 'lost';

/** What stands on a screen when a phase begins. */
export const phaseWords: Readonly<Record<Phase, RigFloor['now']>> = {
  waiting: { code: 'waiting', words: 'Nobody is on the rig.' },
  zero: { code: 'zero', words: 'Keep the plates empty' },
  'stand-still': { code: 'step-on', words: sayings['step-on'].words },
  'set-up': { code: 'set-up', words: 'Take the bar' },
  ready: { code: 'take-up-slack', words: sayings['take-up-slack'].words },
  cue: { code: 'hold-steady', words: sayings['hold-steady'].words },
  pull: { code: 'push', words: sayings.push.words },
  verdict: { code: 'verdict', words: 'Let go' },
  rest: { code: 'rest', words: sayings.rest.words },
};
