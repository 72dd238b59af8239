export { deviceNow } from './clock.ts';
export type { CommandExtra, Unsent } from './commands.ts';
export { isDue } from './cue-due.ts';
export { playTone, soundReady, speak, wakeSound } from './sound.ts';
export type { LiveState, RigLive } from './state.ts';
export type { LiveStore } from './store.ts';
export { endOf, highestSince, type Trace } from './trace.ts';
export { useLive, useWall } from './use-live.ts';
export type { WallLive } from './wall-state.ts';
