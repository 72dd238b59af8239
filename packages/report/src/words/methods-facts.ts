import type { ProtocolDocument } from '@sthene/core';

/** What sentences on test and protocol are made from. */
export interface MethodsFacts {
  /** Title of the test. */
  readonly test: string;
  readonly protocol: ProtocolDocument;
  /** Marks of references for the test, with a blank before them. */
  readonly cited: string;
}
