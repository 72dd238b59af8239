/**
 * What is said in the phases of a turn, by code. To the athlete: at most six words, about the outside world and not about parts of
 * the body, one thing at a time.
 */
export const sayings = {
  'step-on': { to: 'athlete', words: 'Step onto the plates' },
  'step-back-on': { to: 'athlete', words: 'Step back onto the plates' },
  'stand-still': { to: 'athlete', words: 'Stand still' },
  'still-again': { to: 'athlete', words: 'Stand still, once more' },
  weighed: { to: 'athlete', words: 'Thank you. Take the bar' },
  'onto-the-box': { to: 'athlete', words: 'Step onto the box' },
  'wait-on-the-box': { to: 'athlete', words: 'Stay on the box' },
  'squat-and-hold': { to: 'athlete', words: 'Down, and hold' },
  'land-still': { to: 'athlete', words: 'Land and stand still' },
  'no-jump': { to: 'athlete', words: 'No jump seen. Relax' },
  'ease-off': { to: 'athlete', words: 'Ease off the bar' },
  'take-up-slack': { to: 'athlete', words: 'Take up the slack' },
  'hold-steady': { to: 'athlete', words: 'Hold steady' },
  ready: { to: 'athlete', words: 'Ready. Wait for the cue' },
  relax: { to: 'athlete', words: 'Relax' },
  'count-stopped': { to: 'athlete', words: 'Stop. We count again' },
  push: { to: 'athlete', words: 'Keep pushing' },
  'no-pull': { to: 'athlete', words: 'No pull seen. Relax' },
  stop: { to: 'athlete', words: 'Stop. Let go' },
  rest: { to: 'athlete', words: 'Rest' },
  'rest-over': { to: 'athlete', words: 'Ready when you are' },
  'warm-up-again': { to: 'athlete', words: 'Warm up once more first' },
  done: { to: 'athlete', words: 'All done. Step off' },
  'test-done': { to: 'athlete', words: 'Test done. Step off' },
  'next-test': { to: 'athlete', words: 'Rest. Another test follows' },
  'step-off': { to: 'athlete', words: 'Step off the plates' },
  'on-hold': { to: 'athlete', words: 'Relax. Please wait' },
  'plates-not-empty': { to: 'operator', words: 'The plates are not empty. Take everything off them.' },
  'plates-not-quiet': { to: 'operator', words: 'The plates are not quiet. Look for what touches or shakes them.' },
  'cannot-weigh': { to: 'operator', words: 'The athlete does not stand still enough to be weighed.' },
  'confirm-set-up': { to: 'operator', words: 'Confirm the setup.' },
  'effort-in-set-up': { to: 'operator', words: 'A strong pull during setup was not recorded as a trial.' },
  'arm-for-cues': { to: 'operator', words: 'Arm this turn to let the cues sound by themselves.' },
  'another-trial': { to: 'operator', words: 'The two best differ too much. Another maximal effort is asked for.' },
  'another-pull': { to: 'operator', words: 'The last effort does not count yet. Another one is offered.' },
  'set-closed': { to: 'operator', words: 'The set is closed: no further maximal effort today.' },
  'efforts-ended': { to: 'operator', words: 'The stop rule of the protocol ends the maximal efforts of today.' },
  'too-few-count': { to: 'operator', words: 'Fewer maximal efforts count than the protocol asks for.' },
  'peak-has-fallen': { to: 'operator', words: 'The peak lies far below the best of today. Consider stopping.' },
  'consider-stopping': { to: 'operator', words: 'Several efforts in a row did not count. Consider stopping.' },
  'next-athlete': { to: 'operator', words: 'Call the next athlete.' },
  'zero-not-held': { to: 'operator', words: 'The zero did not hold. Zero and weigh again.' },
  'not-cleared': { to: 'operator', words: 'This athlete is not cleared for this test.' },
  'submaximal-only': { to: 'operator', words: 'This athlete is cleared for submaximal efforts only.' },
  'pain-stopped': { to: 'operator', words: 'A pain stop blocks maximal efforts until a named person releases it.' },
} as const satisfies Readonly<Record<string, { readonly to: 'athlete' | 'operator'; readonly words: string }>>;

export type SayingId = keyof typeof sayings;

/** Words of a jump test where those of a pull do not fit. */
export const jumpWords: Readonly<Partial<Record<SayingId, string>>> = {
  weighed: 'Thank you. Get ready to jump',
  stop: 'Stop',
};
