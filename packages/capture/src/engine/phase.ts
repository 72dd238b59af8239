/** Where a turn stands. `waiting`: nobody's turn. */
export const phases = ['waiting', 'zero', 'stand-still', 'set-up', 'ready', 'cue', 'pull', 'verdict', 'rest'] as const;

export type Phase = (typeof phases)[number];
