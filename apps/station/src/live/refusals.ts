import type { EngineOutput } from '@sthene/capture';

/** Why something was not done, as data. */
export interface Refusal {
  readonly code: string;
  readonly words: string;
  readonly next: string;
}

/** The refusal among an engine's outputs. */
export function refusalIn(outputs: readonly EngineOutput[]): Refusal | undefined {
  const refused = outputs.find((one) => one.kind === 'refused');
  return refused?.kind === 'refused'
    ? { code: refused.code, words: refused.words, next: 'Look at the screen and decide again.' }
    : undefined;
}

export const refusals = {
  unknown: { code: 'not-found', words: 'There is no such rig or entry.', next: 'Choose from the running order.' },
  busy: { code: 'not-now', words: 'An effort is under way on this rig.', next: 'Wait for its end, or stop it.' },
  blocked: { code: 'not-cleared', words: '', next: 'A named person has to lift it first.' },
  answers: { code: 'answers-needed', words: '', next: 'Ask the readiness questions first.' },
  done: { code: 'nothing-planned', words: 'Nothing is left to do for this person.', next: 'Choose someone else.' },
  gone: {
    code: 'left-the-day',
    words: 'This person has left the day.',
    next: 'Set the state back to waiting first.',
  },
  elsewhere: { code: 'on-another-rig', words: 'This person is on another rig.', next: 'End that turn first.' },
  resting: { code: 'rest-not-over', words: 'The rest is not over.', next: 'Wait, or choose someone else.' },
  journal: {
    code: 'no-journal',
    words: 'Nothing can be recorded on this rig.',
    next: 'Free the disk and open the rig again.',
  },
  room: {
    code: 'room-busy',
    words: 'On another rig a count or a pull is under way; there is one cue at a time in the room.',
    next: 'Wait for its end.',
  },
} as const satisfies Record<string, Refusal>;
