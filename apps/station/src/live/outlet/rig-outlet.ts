import { randomUUID } from 'node:crypto';
import { hostname } from 'node:os';
import {
  type EngineOutput,
  type HeaderPacket,
  protocolVersion,
  type SamplesPacket,
  type StreamNetwork,
  usualSession,
} from '@sthene/capture';
import { ForceRows } from './force-rows.ts';
import { type OfferedStream, StreamOffer } from './stream-offer.ts';

export interface RigOutletSetup {
  /** Of the rig: its id, and the name under which its streams are seen. */
  readonly rig: string;
  readonly name: string;
  readonly header: HeaderPacket;
  readonly zeros: Readonly<Record<string, number>>;
  readonly network: StreamNetwork;
  /** Address to offer on. */
  readonly host: string;
  /** The station's clock, s. */
  seconds(): number;
}

/** Label of the engine's mark for a cue that sounded. */
const cueLabel = 'cue';

/** The two streams of one rig: its forces, and marks of what goes on. */
export class RigOutlet {
  readonly forces: StreamOffer;
  readonly marks: StreamOffer;
  readonly #rows: ForceRows;

  static async open(setup: RigOutletSetup): Promise<RigOutlet> {
    const rows = new ForceRows(setup.header, setup.zeros);
    const { labels } = rows;
    const forces = await StreamOffer.open(
      {
        ...base(setup, 'forces'),
        ...{ name: setup.name, type: 'Force', format: 'float32', rate: setup.header.promisedRate },
        channelCount: labels.length,
        channels: labels.map((label) => ({ label, unit: 'N', type: 'Force' })),
      },
      setup,
    );
    try {
      const marks = await StreamOffer.open(
        {
          ...base(setup, 'marks'),
          ...{ name: `${setup.name} marks`, type: 'Markers', format: 'string', rate: 0, channelCount: 1 },
          channels: [{ label: 'mark', unit: '', type: 'Marker' }],
        },
        setup,
      );
      return new RigOutlet(rows, forces, marks);
    } catch (error) {
      await forces.close();
      throw error;
    }
  }

  private constructor(rows: ForceRows, forces: StreamOffer, marks: StreamOffer) {
    this.#rows = rows;
    this.forces = forces;
    this.marks = marks;
  }

  get offers(): StreamOffer[] {
    return [this.forces, this.marks];
  }

  zero(zeros: Readonly<Record<string, number>>): void {
    this.#rows.zero(zeros);
  }

  /**
   * @param at time of the first sample, s, and rate just now, Hz
   * @param shown whether the forces may be told
   */
  samples(packet: SamplesPacket, at: { readonly time: number; readonly rate: number }, shown: boolean): void {
    const rows = this.#rows.rows(packet, at, shown);
    this.forces.send(rows);
  }

  mark(text: string, time: number): void {
    this.marks.send([{ time, values: [text] }]);
  }

  async close(): Promise<void> {
    await Promise.all(this.offers.map((offer) => offer.close()));
  }
}

type Base = Pick<OfferedStream, 'sourceId' | 'uid' | 'sessionId' | 'hostname' | 'version' | 'createdAt'>;

const base = ({ rig, seconds }: RigOutletSetup, what: string): Base => ({
  sourceId: `sthene-${rig}-${what}`,
  uid: randomUUID(),
  sessionId: usualSession,
  hostname: hostname(),
  version: protocolVersion,
  createdAt: seconds(),
});

/**
 * What an output of the engine is as a mark, and the sample it belongs to; undefined for what others are not told. No names, no forces: a
 * phase, a zero, a cue that sounded, a verdict.
 */
export function markOf(output: EngineOutput): { readonly text: string; readonly sample: number } | undefined {
  switch (output.kind) {
    case 'phase':
      return { text: `phase ${output.phase}`, sample: output.sample };
    case 'zero':
      return { text: 'zero', sample: output.window.end };
    case 'mark':
      return output.label === cueLabel ? { text: 'cue', sample: output.at } : undefined;
    case 'verdict':
      return { text: `verdict ${output.decided?.decision ?? output.verdict}`, sample: output.sample };
    default:
      return undefined;
  }
}
