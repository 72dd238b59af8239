import type { RigView, WallState } from '@sthene/contract';
import { RigLetter } from '../../parts/rig-letter.tsx';
import { liveWords } from '../../words/live.ts';

const shapes: readonly RigView['shape'][] = ['circle', 'square', 'triangle', 'diamond'];

/** Letter and shape of the rig: which wall this is. */
export function WallMark({ letter, shape }: Pick<WallState['marks'][number], 'letter' | 'shape'>) {
  return (
    <span className="wall-mark">
      <RigLetter letter={letter} shape={shapes.find((one) => one === shape) ?? 'circle'} />
      <span className="unseen">{liveWords.rig(letter)}</span>
    </span>
  );
}
