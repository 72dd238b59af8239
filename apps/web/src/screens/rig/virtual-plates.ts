import type { SourceDescriptionDocument } from '@sthene/contract';
import { rigWords } from '../../words/rig.ts';
import { rigCheckWords } from '../../words/rig-check.ts';

const range: [number, number] = [-10_000, 10_000];
const plate = (side: 'left' | 'right') =>
  ({ name: side, plate: side, side, axis: 'z', unit: 'N', scale: 1, offset: 0, rawRange: range }) as const;

/** Virtual plates as a description: two plates at 1000 Hz, and invented athletes of Fernwater; each set plays a day of its own. Worn ones measure wrong. */
export const virtualSource = (letter: string, seed: number, worn = false): SourceDescriptionDocument => ({
  schema: 'sthene.source/1',
  name: `${worn ? rigCheckWords.worn.name : rigWords.virtual.name} ${letter}`,
  transport: { kind: 'virtual', script: worn ? 'fernwater-worn' : 'fernwater-three', seed, speed: 1 },
  channels: [plate('left'), plate('right')],
  rate: 1000,
});
