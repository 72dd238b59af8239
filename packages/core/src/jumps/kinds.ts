import type { JumpKind } from '../protocols/protocol.ts';

/** Every kind of jump. */
export const everyKind: readonly JumpKind[] = ['countermovement', 'squat', 'drop', 'repeated'];
/** Begins from standing still or from a held squat. */
export const fromStanding: readonly JumpKind[] = ['countermovement', 'squat'];
/** Has a way down on the plates. */
export const withBraking: readonly JumpKind[] = ['countermovement', 'drop'];
/** One jump, not a series. */
export const single: readonly JumpKind[] = ['countermovement', 'squat', 'drop'];
