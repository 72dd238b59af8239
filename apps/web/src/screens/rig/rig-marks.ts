import type { RigView } from '@sthene/contract';

/** Shapes beside the letters, so that rigs are told apart without colour. */
export const shapes = ['circle', 'square', 'triangle', 'diamond'] as const;
export const letters = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];

/** The first letter and shape that no other rig has. */
export function freeMarks(taken: readonly Pick<RigView, 'letter' | 'shape'>[]): Pick<RigView, 'letter' | 'shape'> {
  return {
    letter: letters.find((letter) => !taken.some((one) => one.letter === letter)) ?? 'A',
    shape: shapes.find((shape) => !taken.some((one) => one.shape === shape)) ?? 'circle',
  };
}
