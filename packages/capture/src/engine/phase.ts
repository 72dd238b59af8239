/** Where a turn stands. `waiting`: nobody's turn. An effort is a `pull`, or in a jump test a `jump`. */
export const phases = [
  'waiting',
  'zero',
  'stand-still',
  'set-up',
  'ready',
  'cue',
  'pull',
  'jump',
  'verdict',
  'rest',
] as const;

export type Phase = (typeof phases)[number];

/** True while an effort is made. */
export const isEffort = (phase: Phase): phase is 'pull' | 'jump' => phase === 'pull' || phase === 'jump';

/** Where a jump stands: under way on the plates, in the air, back on the plates, standing. */
export const jumpStages = ['go', 'flight', 'landing', 'still'] as const;

export type JumpStage = (typeof jumpStages)[number];
