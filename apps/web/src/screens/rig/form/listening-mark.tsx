import type { SourceListening } from '@sthene/contract';
import { Icon } from '../../../parts/icon.tsx';
import { rigWords } from '../../../words/rig.ts';
import { standingIcons } from '../standing-mark.tsx';

/** How listening stands: shape and word, colour only on top of them. */
export function ListeningMark({ view: { state, trouble } }: { view: SourceListening }) {
  const standing = state === 'down' ? 'bad' : trouble ? 'look' : state === 'measuring' ? 'good' : 'open';
  return (
    <span className="standing" data-standing={standing} role="status">
      <Icon name={standingIcons[standing]} size={18} />
      {rigWords.listen.states[state]}
    </span>
  );
}
