export * from './calendar.ts';
export * from './fernwater.ts';
export { type FernwaterJump, type FernwaterJumpSession, fernwaterJumpRecording } from './jumps.ts';
export type { FernwaterInjury, FernwaterPerson, FernwaterSquad } from './people.ts';
export { fernwaterTests } from './plan.ts';
export type { FernwaterTrial } from './trials.ts';
