import type { Reason } from './outcome.ts';

/** Words for a reason: what it means, and what a person can do about it. */
export interface ReasonWords {
  readonly means: string;
  readonly next: string;
}

/** Words for every reason a computation may return. Codes are permanent; wording may improve. */
export const reasons: Readonly<Record<Reason, ReasonWords>> = {
  'no-standing-window': {
    means:
      'The recording holds no quiet stretch before the effort: nobody stands still on the plates, or the channel never rests.',
    next: 'Start recording at least two seconds before the effort, while the athlete still stands or the limb still rests. In tests with body weight a weighing of the session lets peak force be given all the same.',
  },
  'no-quiet-window': {
    means: 'There is no steady stretch shortly before the effort to measure the onset from.',
    next: 'Let the athlete keep still for a second before the cue, or place the onset by hand.',
  },
  'no-effort': {
    means: 'The force never rises clearly above its quiet level, or it was already up when the recording began.',
    next: 'Check that the right channels are chosen and that this part of the recording holds a whole effort with rest before it.',
  },
  'no-jump': {
    means: 'Nobody leaves the plates in a jump of this kind: there is no flight between a push and a landing.',
    next: 'Check that the right test and channels are chosen and that the landing is on the plates.',
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
    next: 'Record from at least two seconds before the effort to half a second after it.',
  },
  'onset-not-found': {
    means: 'The rule found no sample at which the effort begins.',
    next: 'Look at the curve before the rise; place the onset by hand when it is plain to see.',
  },
  'threshold-too-high': {
    means: 'The force that would mark the onset lies above half of the rise, so it would mark nothing.',
    next: 'The force was too unsteady before this effort: repeat it, or place the onset by hand.',
  },
  'interval-past-end': {
    means: 'The interval reaches past the end of the effort or of the recording.',
    next: 'Use a shorter interval, or let the athlete hold for longer.',
  },
  'gap-in-interval': {
    means: 'Samples are missing in the interval, more than may be filled.',
    next: 'Check the connection of the sensors and repeat the effort.',
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
    next: 'Record another maximal effort, or decide on those that wait for a second look.',
  },
  'too-few-values': {
    means: 'There are fewer people, sessions or trials than this number needs.',
    next: 'Test more people or more often, or choose a number that needs less.',
  },
  'no-spread': {
    means: 'The values do not differ, or no more than their error, so this number is not defined.',
    next: 'Check that the right column was chosen; with equal values there is nothing to compare.',
  },
  'not-positive': {
    means: 'A value is zero or negative, and this number is computed in logs.',
    next: 'Choose the form in the unit of the metric instead of per cent.',
  },
  'no-fit': {
    means: 'No model fits these values: what it needs to tell apart is the same in them.',
    next: 'Use fewer terms, or more sessions a person.',
  },
  'sources-not-known': {
    means: 'Nothing is known of what the uncertainty of this value is made of.',
    next: 'Check the rig with known masses, and let the athlete stand still for two seconds before the effort.',
  },
};
