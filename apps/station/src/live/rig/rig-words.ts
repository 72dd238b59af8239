import { type JumpStage, type Packet, type Phase, sayings } from '@sthene/capture';
import type { RigFloor, RigState } from '@sthene/contract';
import type { JumpKind } from '@sthene/core';

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

const standing: RigFloor['now'] = { code: 'stand-still', words: sayings['stand-still'].words };

/** What stands on a screen when a phase begins. */
const phaseWords: Readonly<Record<Phase, RigFloor['now']>> = {
  waiting: { code: 'waiting', words: 'Nobody is on the rig.' },
  zero: { code: 'zero', words: 'Keep the plates empty' },
  'stand-still': { code: 'step-on', words: sayings['step-on'].words },
  'set-up': { code: 'set-up', words: 'Take the bar' },
  ready: { code: 'take-up-slack', words: sayings['take-up-slack'].words },
  cue: { code: 'hold-steady', words: sayings['hold-steady'].words },
  pull: { code: 'push', words: sayings.push.words },
  jump: { code: 'go', words: 'Go' },
  verdict: { code: 'verdict', words: 'Let go' },
  rest: { code: 'rest', words: sayings.rest.words },
};

/** The same in a jump test, where it is something else. */
const jumpPhaseWords: Readonly<Partial<Record<Phase, RigFloor['now']>>> = {
  'set-up': { code: 'set-up', words: 'Get ready to jump' },
  ready: standing,
  cue: standing,
  verdict: { code: 'verdict', words: 'Relax' },
};

export const wordsOfPhase = (phase: Phase, jump?: JumpKind): RigFloor['now'] =>
  (jump === undefined ? undefined : jumpPhaseWords[phase]) ?? phaseWords[phase];

/** What stands on a screen in the stages of a jump. */
export const stageWords: Readonly<Record<JumpStage, RigFloor['now']>> = {
  go: { code: 'go', words: 'Go' },
  flight: { code: 'flight', words: 'Flight' },
  landing: { code: 'land-still', words: sayings['land-still'].words },
  still: standing,
};
