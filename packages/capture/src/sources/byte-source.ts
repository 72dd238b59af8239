import type { StreamChannel } from '../packets/packet.ts';
import { calibrated } from './calibration/calibrated.ts';
import { codecOf } from './codec/index.ts';
import type { SourceDescription } from './description.ts';
import type { DescribedLink } from './link-of.ts';
import { Pieces } from './pieces.ts';
import { positionsOf } from './sequence/position.ts';
import { Sequencer } from './sequence/sequencer.ts';
import type { Source } from './source.ts';
import type { TransportPorts } from './transport-ports.ts';

const tickMilliseconds = 100;
/** Milliseconds by which pieces that are sent evenly come unevenly. */
const uneven = 2;
/** So many pieces in a row without a pause are a stream that comes evenly. */
const evenPieces = 50;

/** A source from a link, a codec, a sequencer, and the calibration where its forces are made of several signals. */
export function byteSource(description: SourceDescription, ports: TransportPorts, options: DescribedLink): Source {
  const { clock } = ports;
  const { id } = ports;
  const { link, gather = 0 } = options;
  let gathering: ReturnType<typeof setTimeout> | undefined;
  let timer: ReturnType<typeof setInterval> | undefined;
  let sequencer: Sequencer | undefined;
  let decodeRest = () => {};

  return {
    id,
    async start(emit) {
      const channels: StreamChannel[] = description.channels.map((channel) => ({ ...channel }));
      const sequence = new Sequencer({
        header: { source: id, promisedRate: description.rate, channels },
        positions: positionsOf(description),
        clock,
        reorderWindow: options.reorderWindow,
        ...(ports.rateBy === undefined ? {} : { rateBy: ports.rateBy }),
        emit: calibrated(description.calibration, emit),
      });
      sequencer = sequence;
      let at = clock.monotonic();
      const codec = codecOf(
        description,
        { run: (run) => sequence.take(run, at), damage: (damage) => sequence.damage(damage, at) },
        { startsWhole: options.startsWhole },
      );
      const pieces = new Pieces();
      let handedOn = at;
      let last = at;
      let inRow = 0;
      let waiting = false;
      const decode = (): void => {
        pieces.drain((piece, came) => {
          at = came;
          codec.feed(piece);
        });
        waiting = false;
      };
      const handOn = (): void => {
        handedOn = at;
        sequence.flush(at);
      };
      const later = (): void => {
        if (!waiting) return;
        decode();
        at = clock.monotonic();
        handOn();
      };
      decodeRest = decode;
      let before = false;
      let begun = false;
      const begin = (device?: string) => {
        if (!begun) sequence.begin(device ?? deviceOf(description));
        begun = true;
      };
      let told = '';
      const tell = (state: 'lost' | 'wrong-device' | 'connecting', words: string): void => {
        begin();
        if (told !== state + words) sequence.status(state, words, at);
        told = state + words;
      };
      timer = setInterval(() => {
        decode();
        at = clock.monotonic();
        if (begun) sequence.tick(at);
      }, tickMilliseconds);
      await link.start({
        opened(device) {
          decode();
          at = clock.monotonic();
          begin(device);
          told = '';
          sequence.reconnected();
          sequence.watch.linkUp(at);
          sequence.status(before ? 'returned' : 'connected', before ? 'The link is back.' : 'The link stands.', at);
          before = true;
        },
        bytes(bytes) {
          const now = clock.monotonic();
          const passed = Number(now - handedOn) / 1e6;
          const sinceLast = Number(now - last) / 1e6;
          last = now;
          inRow = sinceLast < gather ? inRow + 1 : 0;
          // The next piece would come too late to go with this one.
          if (passed >= gather - uneven || passed + sinceLast > gather + uneven) {
            decode();
            at = now;
            codec.feed(bytes);
            handOn();
            return;
          }
          pieces.add(bytes, now);
          if (waiting) return;
          waiting = true;
          // Pieces that come evenly hand each other on, and the last one before a pause is found by the tick; a timer would only
          // wake the station in vain.
          if (inRow >= evenPieces) return;
          if (gathering === undefined) gathering = setTimeout(later, gather + uneven);
          else gathering.refresh();
        },
        pieceEnd() {
          decode();
          codec.end();
          handOn();
        },
        closed(reason) {
          decode();
          at = clock.monotonic();
          if (sequence.watch.up) codec.end();
          sequence.watch.linkDown();
          tell(before ? 'lost' : 'connecting', reason);
        },
        wrongDevice(words) {
          decode();
          at = clock.monotonic();
          tell('wrong-device', words);
        },
      });
      begin();
    },
    async stop() {
      clearInterval(timer);
      timer = undefined;
      await link.stop();
      clearTimeout(gathering);
      gathering = undefined;
      decodeRest();
      sequencer?.end(clock.monotonic());
      sequencer = undefined;
    },
  };
}

function deviceOf({ transport }: SourceDescription): string | undefined {
  return transport.kind === 'serial' ? transport.serialNumber : undefined;
}
