import type { LiveTurn, ToOperator, ToWall } from '@sthene/contract';

/** A message before it is numbered. */
type Unnumbered<M> = M extends { sequence: number } ? Omit<M, 'sequence'> : never;
export type Said = Unnumbered<ToOperator>;
export type WallSaid = Unnumbered<ToWall>;

/** Body weight of the made-up athlete, N. */
export const weight = 742;
export const rate = 1000;
export const bucket = 5;

export type ScriptedEffort = LiveTurn['effort'];

export const tenth = (value: number): number => Math.round(value * 10) / 10;
