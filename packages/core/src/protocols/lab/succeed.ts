import { type ProtocolDocument, protocolReference } from './document.ts';

/** What a person decides of a version; the rest follows from where it stands. */
export type ProtocolDraft = Omit<ProtocolDocument, 'version' | 'succeeds' | 'schema'>;

/** A draft without what it may have kept of the document it was made from. */
function bare(draft: ProtocolDraft): ProtocolDraft {
  const { schema: _, version: __, succeeds: ___, ...rest } = draft as ProtocolDocument;
  return rest;
}

/** The first version of a protocol. */
export const firstVersion = (draft: ProtocolDraft): ProtocolDocument => ({
  schema: 'sthene.protocol/1',
  version: 1,
  ...bare(draft),
});

/** The version after another, which stays as it is. */
export const nextVersion = (before: ProtocolDocument, draft: ProtocolDraft): ProtocolDocument => ({
  schema: 'sthene.protocol/1',
  version: before.version + 1,
  ...bare(draft),
  succeeds: { version: before.version, sha256: protocolReference(before).sha256 },
});
