import type { ProtocolDocument } from '@sthene/core';

/** One version of a protocol. */
export interface ProtocolInput {
  readonly document: ProtocolDocument;
  readonly sha256: string;
}
