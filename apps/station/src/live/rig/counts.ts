import type { Packet } from '@sthene/capture';

/** What came and what did not since a rig was opened. */
export interface Counts {
  readonly samples: number;
  readonly gaps: number;
  readonly missing: number;
  readonly doubled: number;
  readonly late: number;
  readonly swapped: number;
  readonly checksum: number;
  readonly unreadable: number;
}

export const noCounts: Counts = {
  samples: 0,
  gaps: 0,
  missing: 0,
  doubled: 0,
  late: 0,
  swapped: 0,
  checksum: 0,
  unreadable: 0,
};

/** Counts after one more packet. */
export function counted(counts: Counts, packet: Packet): Counts {
  switch (packet.kind) {
    case 'samples':
      return { ...counts, samples: counts.samples + packet.count };
    case 'gap':
      return { ...counts, gaps: counts.gaps + 1, missing: counts.missing + packet.count };
    case 'fault':
      return { ...counts, [packet.fault]: counts[packet.fault] + packet.count };
    default:
      return counts;
  }
}
