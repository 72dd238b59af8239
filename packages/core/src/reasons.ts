import type { Reason } from './outcome.ts';

/** Words for a reason: what it means, and what a person can do about it. */
export interface ReasonWords {
  readonly means: string;
  readonly next: string;
}

/** Words for every reason a computation may return. Codes are permanent; wording may improve. */
export const reasons: Readonly<Record<Reason, ReasonWords>> = {
  'no-standing-window': {
    means: 'Nobody stands still on the plates for long enough before the pull.',
    next: 'Start recording while the athlete still stands, at least two seconds before the pull; a weighing of the session lets peak force be given all the same.',
  },
  'no-quiet-window': {
    means: 'There is no steady second shortly before the pull to measure the onset from.',
    next: 'Let the athlete stand still under slight tension for a second before the cue, or place the onset by hand.',
  },
  'no-effort': {
    means: 'The force never rises clearly above quiet standing.',
    next: 'Check that the right channels are chosen and that this part of the recording holds a pull.',
  },
  'no-force-channel': {
    means: 'No channel of the recording was chosen as a force.',
    next: 'Choose the vertical force channels and their sides.',
  },
  'unit-unknown': {
    means: 'A chosen channel has no unit that can become a force.',
    next: 'Name the unit of the channel, or give its newtons per unit and its zero.',
  },
  'recording-too-short': {
    means: 'The recording holds too few samples for this computation.',
    next: 'Record from at least two seconds before the pull to half a second after it.',
  },
  'onset-not-found': {
    means: 'The rule found no sample at which the pull begins.',
    next: 'Look at the curve before the rise; place the onset by hand when it is plain to see.',
  },
  'threshold-too-high': {
    means: 'The force that would mark the onset lies above half of the rise, so it would mark nothing.',
    next: 'The stance was too unsteady for this pull: repeat it, or place the onset by hand.',
  },
  'interval-past-end': {
    means: 'The interval reaches past the end of the effort or of the recording.',
    next: 'Use a shorter interval, or let the athlete pull for longer.',
  },
  'gap-in-interval': {
    means: 'Samples are missing in the interval, more than may be filled.',
    next: 'Check the connection of the plates and repeat the pull.',
  },
  'window-too-short': {
    means: 'The window holds too few samples at this sample rate.',
    next: 'Record at a higher rate, or use a longer window.',
  },
  'one-side-only': {
    means: 'Left and right cannot be compared: only one side, or no side, was measured.',
    next: 'Name the side of each plate, if there are two.',
  },
  'no-body-weight': {
    means: 'The body weight is not known.',
    next: 'Weigh the athlete, enter a body weight, or let the recording begin with quiet standing.',
  },
  'needs-body-weight': {
    means: 'This value needs a body weight, and the test has none.',
    next: 'Choose a value that works without body weight.',
  },
  'not-defined': {
    means: 'The value is not defined for these data, this unit or this method.',
    next: 'Open the definition to see what it needs.',
  },
  'too-few-trials': {
    means: 'There are fewer trials that count than the value needs.',
    next: 'Record another maximal pull, or decide on those that wait for a second look.',
  },
};
