import type { ReportQuery } from '@sthene/contract';
import { protocolReference } from '@sthene/core';
import type { ProtocolInput } from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { documentOf } from '../protocols.ts';
import { missing } from './refusals.ts';

/** What the sheet of a protocol is made of: its newest version, or the one with a hash. */
export async function protocolInput(lab: OpenLab, { protocol }: ReportQuery): Promise<ProtocolInput> {
  if (!protocol) throw missing('protocol', '"protocol", a short id, an id or a hash');
  const document = await documentOf(lab, protocol);
  return { document, sha256: protocolReference(document).sha256 };
}
