import { areNumbers } from '../sources/codec/are-numbers.ts';
import type { Damage, Run } from '../sources/codec/run.ts';
import { type FeedAnswer, HeadGatherer, readFeedAnswer } from './feed-head.ts';
import { SampleBytes } from './sample-bytes.ts';
import type { StreamFault } from './stream-fault.ts';
import type { StreamInfo } from './stream-info.ts';
import { patternOffsets, patternTime } from './test-pattern.ts';

/** What a receiver hears on the connection for samples. */
export interface FeedEvents {
  /** The sender agreed, and its two patterns were read. */
  opened(answer: FeedAnswer): void;
  /** Samples that came together; those whose time was deduced go with the one before them. Its `time` is the stamp of its first sample. */
  run(run: Run): void;
  damage(damage: Damage): void;
  /** The connection cannot be used any more. */
  fault(fault: StreamFault): void;
}

/** Most samples of one run. */
const longestRun = 2048;

/**
 * Reads what a sender of numbers sends after a request: its answer, two patterns, then samples. Of the patterns only the time is compared:
 * it has eight bytes, so that a wrong byte order or a wrong width shows, and the values are documented for one format only.
 *
 * A sample with a value that is no number is damage; the run after it says its time anew, so that the hole is seen.
 */
export class Feed {
  readonly #info: Pick<StreamInfo, 'format' | 'channelCount' | 'rate'>;
  readonly #events: FeedEvents;
  readonly #head = new HeadGatherer();
  #samples: SampleBytes | undefined;
  #over = false;
  #patterns = 0;
  #answer: FeedAnswer | undefined;
  /** Time of the last sample, and whether the next one has to say its own though it was deduced. */
  #last: number | undefined;
  #sayTime = false;
  #run: { readonly time: number | undefined; readonly values: Float64Array[] } | undefined;

  constructor(info: Pick<StreamInfo, 'format' | 'channelCount' | 'rate'>, events: FeedEvents) {
    this.#info = info;
    this.#events = events;
  }

  /** The bytes may be reused by the caller afterwards. */
  feed(bytes: Uint8Array): void {
    if (this.#over) return;
    if (this.#samples !== undefined) this.#samples.feed(bytes);
    else this.#before(bytes);
    this.#endRun();
  }

  #before(bytes: Uint8Array): void {
    const head = this.#head.feed(bytes);
    if (head === undefined) return;
    if (!head.ok) {
      this.#fail(head.fault);
      return;
    }
    const answer = readFeedAnswer(head.value.head);
    if (!answer.ok) {
      this.#fail(answer.fault);
      return;
    }
    this.#answer = answer.value;
    const { format, channelCount } = this.#info;
    this.#samples = new SampleBytes(
      { format, channels: channelCount, order: answer.value.order },
      { sample: (time, values) => this.#sample(time, values), fault: (fault) => this.#fail(fault) },
    );
    this.#samples.feed(head.value.rest);
  }

  #sample(stamp: number | undefined, values: Float64Array | readonly string[]): void {
    if (this.#over) return;
    if (this.#patterns < patternOffsets.length) {
      if (stamp !== patternTime)
        this.#fail({ code: 'stream-pattern-wrong', words: `Pattern ${this.#patterns + 1} says ${stamp}.` });
      else if (++this.#patterns === patternOffsets.length && this.#answer !== undefined)
        this.#events.opened(this.#answer);
      return;
    }
    const { rate } = this.#info;
    const time = stamp ?? (this.#last === undefined ? undefined : this.#last + (rate > 0 ? 1 / rate : 0));
    this.#last = time;
    if (!(values instanceof Float64Array) || !areNumbers(values)) {
      this.#endRun();
      this.#events.damage({ fault: 'unreadable', count: 1, samples: 1 });
      this.#sayTime = true;
      return;
    }
    if (stamp !== undefined || this.#sayTime || (this.#run?.values.length ?? 0) >= longestRun) this.#endRun();
    this.#run ??= { time: stamp ?? (this.#sayTime ? time : undefined), values: [] };
    this.#sayTime = false;
    this.#run.values.push(values);
  }

  #endRun(): void {
    const run = this.#run;
    if (run === undefined || this.#over) return;
    this.#run = undefined;
    const count = run.values.length;
    const channels = this.#info.channelCount;
    const values = new Float64Array(count * channels);
    run.values.forEach((one, i) => {
      values.set(one, i * channels);
    });
    this.#events.run(run.time === undefined ? { count, values } : { time: run.time, count, values });
  }

  #fail(fault: StreamFault): void {
    if (this.#over) return;
    this.#endRun();
    this.#over = true;
    this.#events.fault(fault);
  }
}
