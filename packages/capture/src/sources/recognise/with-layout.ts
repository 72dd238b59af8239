import type { ChannelDescription, SourceDescription } from '../description.ts';
import type { ProposedLayout } from './recognise.ts';

/**
 * A description with a proposed layout instead of its own. Channels that were described are kept in their order, under the names
 * the layout uses; further ones are plates of their own, in counts, until a person says more.
 */
export function withLayout(description: SourceDescription, { layout, channels }: ProposedLayout): SourceDescription {
  return {
    ...description,
    layout,
    channels: channels.map((name, i): ChannelDescription => {
      const known = description.channels[i];
      if (known !== undefined) return { ...known, name };
      return { name, plate: name, side: 'none', axis: 'z', unit: '1', scale: 1, offset: 0 };
    }),
  };
}
