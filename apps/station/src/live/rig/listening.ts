import {
  type CreateSourcePorts,
  type Listening,
  type ListeningView,
  linkTroubles,
  listenTo,
  type ProposedLayout,
  parseSourceDescription,
  type SourceDescription,
  type StreamNetwork,
  withLayout,
} from '@sthene/capture';
import type { SourceListening } from '@sthene/contract';
import { systemClock } from '../clock.ts';
import { checkSource } from './check-source.ts';

/** Silence of the one who listens that ends it, ms: a closed page lets go of its device. */
const idleAfter = 4_000;
/** Looking for layouts is dear; once in so many ms is enough. */
const proposeEvery = 1_000;

const ports: CreateSourcePorts = {
  id: 'listening',
  clock: systemClock,
  schedule: (tick, everyMilliseconds) => {
    const timer = setInterval(tick, everyMilliseconds);
    return () => clearInterval(timer);
  },
};

/** What can be made of a description that may be half written: all of it, or only how the bytes come in. */
export interface Readable {
  readonly transport: SourceDescription['transport'];
  readonly description?: SourceDescription;
  /** What there is of it to build a proposal on. */
  readonly base: SourceDescription;
  /** Where streams are sought; as the protocol has it when absent. */
  readonly streamNetwork?: StreamNetwork;
}

/** Undefined when not even the transport can be used. */
export function readable(value: unknown): Readable | undefined {
  // A name may still be missing; it changes nothing of what comes.
  const named = typeof value === 'object' && value !== null && 'name' in value && value.name === '';
  const whole = parseSourceDescription(named ? { ...value, name: 'Source' } : value);
  if (whole.ok) {
    const { description } = whole;
    return { transport: description.transport, description, base: description };
  }
  const given = (typeof value === 'object' && value !== null ? value : {}) as Partial<SourceDescription>;
  if (given.calibration !== undefined) {
    // While a matrix is half written, what comes is heard without it.
    const { calibration: _, ...uncalibrated } = given;
    return readable(uncalibrated);
  }
  const plain = { schema: 'sthene.source/1', name: 'Source', rate: 1000, transport: given.transport } as const;
  const channel = { name: 'x', plate: 'x', side: 'none', axis: 'z', unit: 'N', scale: 1, offset: 0 };
  const channels = given.channels ?? [];
  const names = Array.isArray(channels) ? channels.map((one) => (one as { name?: unknown })?.name) : [];
  const layout = (names: readonly unknown[]) => ({
    kind: 'lines',
    delimiter: ';',
    fields: names.map((name) => ({ role: 'channel', channel: name })),
  });
  const bytes = (names: readonly unknown[], more: object) =>
    parseSourceDescription({ ...plain, ...more, layout: layout(names) });
  const bare = bytes(['x'], { channels: [channel] });
  const files = parseSourceDescription({ ...plain, channels: [] });
  const found = bare.ok ? bare.description : files.ok ? files.description : undefined;
  if (found === undefined) return undefined;
  const kept = bytes(names, { channels });
  const { layout: _, ...base } = kept.ok ? kept.description : { ...found, channels: [] };
  return { transport: found.transport, base };
}

interface One {
  readonly listening: Listening;
  text: string;
  base: SourceDescription;
  description: SourceDescription | undefined;
  proposed: { readonly at: number; readonly layouts: readonly ProposedLayout[] } | undefined;
  timer: NodeJS.Timeout | undefined;
}

/** Everybody who listens to a source just now. A device that is listened to is free again at the latest 4 s after the last call. */
export class Listenings {
  readonly #all = new Map<string, One>();
  #work: Promise<unknown> = Promise.resolve();

  /** Goes on listening under an id, or begins; one thing after the other, so that no port is opened twice. */
  listen(id: string, value: unknown, wanted: Readable): Promise<SourceListening> {
    return this.#inTurn(async () => {
      const text = JSON.stringify(value);
      const there = this.#all.get(id);
      const one = there === undefined ? await this.#begin(id, text, wanted) : await this.#goOn(id, there, text, wanted);
      clearTimeout(one.timer);
      one.timer = setTimeout(() => void this.stop(id), idleAfter).unref();
      return shown(one, value);
    });
  }

  stop(id: string): Promise<boolean> {
    return this.#inTurn(() => this.#end(id));
  }

  /** Listens for so long and tells what came. */
  async once(value: unknown, wanted: Readable, seconds: number): Promise<SourceListening> {
    const one = opened(JSON.stringify(value), wanted);
    try {
      one.listening.view();
      await new Promise((done) => setTimeout(done, 1000 * seconds));
      return shown(one, value);
    } finally {
      await one.listening.stop();
    }
  }

  #inTurn<T>(act: () => Promise<T>): Promise<T> {
    const done = this.#work.then(act);
    this.#work = done.catch(() => undefined);
    return done;
  }

  async #begin(id: string, text: string, wanted: Readable): Promise<One> {
    const one = opened(text, wanted);
    this.#all.set(id, one);
    return one;
  }

  async #goOn(id: string, one: One, text: string, wanted: Readable): Promise<One> {
    if (one.text === text) return one;
    if (!(await one.listening.describe(wanted.description)) || !sameTransport(one.base, wanted.base)) {
      await this.#end(id);
      return this.#begin(id, text, wanted);
    }
    Object.assign(one, { text, base: wanted.base, description: wanted.description });
    return one;
  }

  async #end(id: string): Promise<boolean> {
    const one = this.#all.get(id);
    if (one === undefined) return false;
    this.#all.delete(id);
    clearTimeout(one.timer);
    await one.listening.stop();
    return true;
  }
}

const sameTransport = (a: SourceDescription, b: SourceDescription) =>
  JSON.stringify(a.transport) === JSON.stringify(b.transport);

const opened = (text: string, { transport, description, base, streamNetwork }: Readable): One => ({
  listening: listenTo(
    { transport, ...(description === undefined ? {} : { description }) },
    streamNetwork === undefined ? ports : { ...ports, streamNetwork },
  ),
  text,
  base,
  description,
  proposed: undefined,
  timer: undefined,
});

function shown(one: One, value: unknown): SourceListening {
  const view = one.listening.view();
  const { trouble, bytes, pieces, rate, counts, header } = view;
  const { faults, ...rest } = counts;
  return {
    state: view.state,
    words: view.words,
    ...(trouble === undefined ? {} : { trouble: { code: trouble, ...linkTroubles[trouble] } }),
    seconds: view.seconds,
    ...(bytes === undefined ? {} : { bytes: { ...bytes, last: Buffer.from(bytes.last).toString('hex') } }),
    ...(pieces === undefined ? {} : { pieces }),
    counts: { ...rest, ...faults },
    ...(rate === undefined || header === undefined ? {} : { rate: { promised: header.promisedRate, ...rate } }),
    channels: view.channels.map(({ channel: { name, unit, madeOf }, ...numbers }) => ({
      ...{ name, unit, made: madeOf !== undefined },
      ...numbers,
    })),
    candidates: candidates(one, view),
    faults: checkSource(value).faults,
  };
}

/** Layouts that would fit; not sought again while the present one reads well. */
function candidates(one: One, { bytes, state, trouble }: ListeningView): SourceListening['candidates'] {
  if (bytes === undefined || bytes.received === 0) return [];
  const now = performance.now();
  const well = state === 'measuring' && trouble === undefined;
  if (one.proposed === undefined || (!well && now - one.proposed.at > proposeEvery))
    one.proposed = { at: now, layouts: one.listening.propose() };
  return one.proposed.layouts.map((proposed) => ({
    description: withLayout(one.base, proposed) as SourceListening['candidates'][number]['description'],
    fits: proposed.fits,
    words: wordsOf(proposed),
    reasons: [...proposed.reasons],
  }));
}

const named: Readonly<Record<string, string>> = {
  ',': 'commas',
  ';': 'semicolons',
  '\t': 'tabs',
  ' ': 'blanks',
  '|': 'bars',
};

/** A layout in one line: what tells it from the others. */
function wordsOf({ layout, channels }: ProposedLayout): string {
  const many = `${channels.length} ${channels.length === 1 ? 'channel' : 'channels'}`;
  if (layout.kind === 'lines')
    return layout.fields.length === 1
      ? 'Text, a number a line'
      : `Text, ${many} between ${named[layout.delimiter] ?? layout.delimiter}`;
  const type = layout.sample.find(({ role }) => role === 'channel')?.type ?? '';
  return `Frames, ${many} of ${type}${layout.samples > 1 ? `, ${layout.samples} samples a frame` : ''}`;
}
