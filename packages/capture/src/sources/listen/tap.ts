import type { Link, LinkEvents } from '../link.ts';
import type { DescribedLink } from '../link-of.ts';
import type { LinkTroubleCode } from '../link-trouble.ts';

const keptBytes = 16_384;

/** How a tapped link stands. */
export interface TapState {
  readonly state: 'opening' | 'open' | 'down' | 'wrong-device';
  readonly words: string;
  /** Absent while the link stands or only waits for its device. */
  readonly trouble?: LinkTroubleCode;
}

/** One real link whose bytes are kept for a look and handed on to whoever reads just now. */
export interface Tap {
  readonly now: TapState;
  readonly received: number;
  /** The last bytes, at most 16384. */
  readonly bytes: Uint8Array;
  /** What a new reader reads from: the same bytes, from now on. The real link is not opened again for it. */
  reading(): DescribedLink;
  stop(): Promise<void>;
}

/** Opens a link once, however often the reading of its bytes changes. Does not wait for the link to stand. */
export function tap({ link, reorderWindow, startsWhole }: DescribedLink): Tap {
  let now: TapState = { state: 'opening', words: 'The link is being opened.' };
  let received = 0;
  let kept = new Uint8Array(0);
  let device: string | undefined;
  let reader: LinkEvents | undefined;
  const started = link.start({
    opened(from) {
      now = { state: 'open', words: 'The link stands.' };
      device = from;
      reader?.opened(from);
    },
    bytes(bytes) {
      received += bytes.length;
      kept = withTail(kept, bytes);
      reader?.bytes(bytes);
    },
    pieceEnd: () => reader?.pieceEnd?.(),
    closed(words, trouble) {
      now = { state: 'down', words, ...(trouble === undefined ? {} : { trouble }) };
      reader?.closed(words, trouble);
    },
    wrongDevice(words) {
      now = { state: 'wrong-device', words, trouble: 'source-wrong-device' };
      reader?.wrongDevice(words);
    },
  });
  const facade = (): Link => {
    let mine: LinkEvents | undefined;
    return {
      async start(events) {
        mine = events;
        reader = events;
        if (now.state === 'open') events.opened(device);
      },
      async stop() {
        if (reader === mine) reader = undefined;
      },
    };
  };
  return {
    get now() {
      return now;
    },
    get received() {
      return received;
    },
    get bytes() {
      return kept;
    },
    // Whoever begins to read in the middle of a stream meets the end of a line first; a datagram is whole.
    reading: () => ({
      link: facade(),
      reorderWindow,
      startsWhole: startsWhole && (received === 0 || reorderWindow > 0),
    }),
    async stop() {
      reader = undefined;
      await link.stop();
      await started;
      await link.stop();
    },
  };
}

function withTail(kept: Uint8Array, bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  const all = new Uint8Array(Math.min(keptBytes, kept.length + bytes.length));
  const tail = bytes.subarray(Math.max(0, bytes.length - keptBytes));
  all.set(kept.subarray(kept.length - (all.length - tail.length)), 0);
  all.set(tail, all.length - tail.length);
  return all;
}
