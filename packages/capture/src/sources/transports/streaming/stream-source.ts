import type { StreamChannel } from '../../../packets/packet.ts';
import type { ClockOffset } from '../../../streaming/clock-offset.ts';
import type { StreamInfo } from '../../../streaming/stream-info.ts';
import { calibrated } from '../../calibration/calibrated.ts';
import type { SourceDescription } from '../../description.ts';
import type { LinkTroubleCode } from '../../link-trouble.ts';
import { Sequencer } from '../../sequence/sequencer.ts';
import { stampPositions } from '../../sequence/stamp-positions.ts';
import type { Source } from '../../source.ts';
import type { TransportPorts } from '../../transport-ports.ts';
import { identityOf } from './choose-stream.ts';
import { channelsOfStream } from './describe-stream.ts';
import { type StreamDescription, streamLink } from './stream-link.ts';

/** A source that reads a stream of the open lab streaming layer. */
export interface StreamSource extends Source {
  /** What keeps it from measuring just now. */
  trouble(): LinkTroubleCode | undefined;
}

export const isStreamSource = (source: Source): source is StreamSource => 'trouble' in source;

const tickMilliseconds = 100;
/** What comes within this time is handed on together, ms: the curve on the screens is told 50 times a second. */
const gather = 18;
/** Seconds a sample may come out of order. */
const reorderWindow = 0.2;
/** Bursts of time probes without an answer after which it is said. */
const silentBursts = 2;

/**
 * A source from a stream: samples stand where their time stamps put them, device times are the sender's own stamps as they were sent, and
 * clock packets say how its clock stands to the station's. Where the description names no channels, the stream does, and the header waits
 * for it.
 */
export function streamSource(description: SourceDescription, ports: TransportPorts): StreamSource {
  const { clock, id } = ports;
  const described = description as SourceDescription & StreamDescription;
  const link = streamLink(described, clock, ports.streamNetwork);
  let sequence: Sequencer | undefined;
  let timer: ReturnType<typeof setInterval> | undefined;
  let flushing: ReturnType<typeof setTimeout> | undefined;
  let trouble: LinkTroubleCode | undefined;
  let offset: ClockOffset | undefined;

  return {
    id,
    trouble: () => trouble,
    async start(emit) {
      const out = calibrated(description.calibration, emit);
      let begun = false;
      let before = false;
      let told = '';
      let unanswered = 0;
      const now = () => clock.monotonic();
      const sequencerOf = (channels: readonly StreamChannel[]): Sequencer =>
        new Sequencer({
          header: { source: id, promisedRate: description.rate, channels },
          positions: stampPositions(description.rate),
          clock,
          reorderWindow,
          ...(ports.rateBy === undefined ? {} : { rateBy: ports.rateBy }),
          deviceClock: () => offset,
          emit: out,
        });
      const begin = (info?: StreamInfo): Sequencer | undefined => {
        const named = description.channels.length > 0;
        if (sequence === undefined && !named && info === undefined) return undefined;
        sequence ??= sequencerOf(
          named ? description.channels.map((one) => ({ ...one })) : channelsOfStream(info as StreamInfo),
        );
        const device = info === undefined ? described.transport.sourceId : identityOf(info);
        if (!begun) sequence.begin(device);
        begun = true;
        return sequence;
      };
      const tell = (state: 'lost' | 'wrong-device' | 'connecting', words: string, why: LinkTroubleCode): void => {
        trouble = why;
        const known = begin();
        if (told !== state + words) {
          if (known === undefined) emit({ kind: 'status', state, words, at: now() });
          else known.status(state, words, now());
        }
        told = state + words;
      };
      const later = (): void => {
        flushing = undefined;
        sequence?.flush(now());
      };
      const soon = (): void => {
        flushing ??= setTimeout(later, gather);
      };
      timer = setInterval(() => {
        if (begun) sequence?.tick(now());
      }, tickMilliseconds);
      await link.start({
        opened(info) {
          const known = begin(info);
          told = '';
          trouble = undefined;
          offset = undefined;
          unanswered = 0;
          known?.reconnected();
          known?.watch.linkUp(now());
          known?.status(
            before ? 'returned' : 'connected',
            before ? 'The stream is back.' : 'The stream is open.',
            now(),
          );
          before = true;
        },
        run(run) {
          sequence?.take(run, now());
          soon();
        },
        damage(damage) {
          sequence?.damage(damage, now());
          soon();
        },
        closed(reason, why) {
          sequence?.flush(now());
          sequence?.watch.linkDown();
          tell(before ? 'lost' : 'connecting', reason, why);
        },
        wrongDevice(words) {
          tell('wrong-device', words, 'source-wrong-device');
        },
        clock(next) {
          if (next !== undefined) {
            offset = next;
            unanswered = 0;
          } else if (++unanswered === silentBursts && sequence?.watch.quiet === false) {
            offset = undefined;
            sequence.status(
              'connected',
              'Samples come, but the sender does not answer time probes: its clock is not known.',
              now(),
            );
          }
        },
      });
      begin();
    },
    async stop() {
      clearInterval(timer);
      clearTimeout(flushing);
      await link.stop();
      sequence?.end(clock.monotonic());
      sequence = undefined;
    },
  };
}
