import type { StreamChannel } from '../packets/packet.ts';
import { codecOf } from './codec/index.ts';
import type { SourceDescription } from './description.ts';
import type { DescribedLink } from './link-of.ts';
import { type ProposedLayout, recogniseLayout } from './recognise/recognise.ts';

/** What arrives on a line, for somebody who sets up a source. */
export interface BytesView {
  readonly state: 'opening' | 'open' | 'lost' | 'wrong-device';
  readonly words: string;
  readonly received: number;
  /** The last bytes, at most 4096. */
  readonly bytes: Uint8Array;
  /** What the layout makes of them: samples read, lines or frames that were none, and the last values of each channel. */
  readonly samples: number;
  readonly unreadable: number;
  readonly channels: readonly { readonly channel: StreamChannel; readonly last: number; readonly physical: number }[];
}

const keptBytes = 16_384;
const shownBytes = 4_096;

export interface BytesWatch {
  view(): BytesView;
  /** Layouts that would fit what came so far, the likeliest first. */
  propose(): ProposedLayout[];
  stop(): Promise<void>;
}

/**
 * Listens to a link and shows its bytes, decoded as the description says where it says so. Nothing is stored and nothing is
 * sequenced; the link has to be free.
 */
export async function watchBytes(
  description: Pick<SourceDescription, 'layout' | 'channels'>,
  { link, startsWhole }: Pick<DescribedLink, 'link' | 'startsWhole'>,
): Promise<BytesWatch> {
  let state: BytesView['state'] = 'opening';
  let words = 'The link is being opened.';
  let received = 0;
  let kept = new Uint8Array(0);
  let samples = 0;
  let unreadable = 0;
  let last: Float64Array | undefined;
  const { layout, channels } = description;
  const reader = {
    run(run: { count: number; values: Float64Array }) {
      samples += run.count;
      last = run.values.slice((run.count - 1) * channels.length);
    },
    damage({ count }: { count: number }) {
      unreadable += count;
    },
  };
  const codec = layout === undefined ? undefined : codecOf({ layout, channels }, reader, { startsWhole });
  await link.start({
    opened() {
      state = 'open';
      words = 'The link stands.';
    },
    bytes(bytes) {
      received += bytes.length;
      const all = new Uint8Array(Math.min(keptBytes, kept.length + bytes.length));
      const tail = bytes.subarray(Math.max(0, bytes.length - keptBytes));
      all.set(kept.subarray(kept.length - (all.length - tail.length)), 0);
      all.set(tail, all.length - tail.length);
      kept = all;
      codec?.feed(bytes);
    },
    pieceEnd: () => codec?.end(),
    closed(reason) {
      state = 'lost';
      words = reason;
    },
    wrongDevice(reason) {
      state = 'wrong-device';
      words = reason;
    },
  });
  return {
    view: () => ({
      state,
      words,
      received,
      bytes: kept.slice(-shownBytes),
      samples,
      unreadable,
      channels:
        last === undefined
          ? []
          : channels.map((channel, c) => {
              const raw = (last as Float64Array)[c] as number;
              return { channel, last: raw, physical: (raw - channel.offset) * channel.scale };
            }),
    }),
    propose: () => recogniseLayout(kept),
    stop: () => link.stop(),
  };
}
