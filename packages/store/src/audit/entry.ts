import type { UtcInstant } from '@sthene/core';
import type { AuditRow } from '../database.ts';
import { StoreError } from '../errors.ts';
import { sha256Hex } from '../hash.ts';
import { canonicalJson, fromJson } from '../json.ts';

/** Facts of an audit entry: ids, field names, counts, hashes. Never a personal value. */
export type AuditDetails = Readonly<Record<string, string | number | boolean | readonly string[]>>;

/** One line of the audit trail. */
export interface AuditEntry {
  /** 1, 2, 3, ... without a hole. */
  readonly sequence: number;
  readonly at: UtcInstant;
  readonly by: string;
  readonly role?: string;
  readonly station: string;
  readonly action: string;
  readonly subject: { readonly kind: string; readonly id: string };
  readonly details: AuditDetails;
  readonly previousHash: string;
  readonly hash: string;
}

/** `previousHash` of the first entry. */
export const chainStart = '0'.repeat(64);

/**
 * Hash of an entry: SHA-256 over the canonical JSON array of a label, every field in fixed order, and the previous hash.
 * An array, so that no text in one field can be moved into the next.
 */
export function entryHash(row: Omit<AuditRow, 'hash'>): string {
  const { sequence, at, by, role, station, action, subjectKind, subjectId, details, previousHash } = row;
  return sha256Hex(
    canonicalJson([
      'sthene.audit/1',
      sequence,
      at,
      by,
      role,
      station,
      action,
      subjectKind,
      subjectId,
      details,
      previousHash,
    ]),
  );
}

const plain = /^[A-Za-z0-9._:/+-]{0,128}$/;

/**
 * The text of the details. Free text is refused: a word with a blank or an accent in it is more likely a name or a note
 * than an id, a field name or a hash, and what stands in the chain can never be erased.
 */
export function detailsText(details: AuditDetails): string {
  for (const [field, value] of Object.entries(details)) {
    const words = typeof value === 'string' ? [value] : Array.isArray(value) ? value : [];
    if (words.some((word) => !plain.test(word))) {
      throw new StoreError('bad-value', 'Audit details hold ids, field names, numbers and hashes only.', { field });
    }
  }
  return canonicalJson(details);
}

export function toEntry(row: AuditRow): AuditEntry {
  return {
    sequence: row.sequence,
    at: row.at as UtcInstant,
    by: row.by,
    ...(row.role === null ? {} : { role: row.role }),
    station: row.station,
    action: row.action,
    subject: { kind: row.subjectKind, id: row.subjectId },
    details: fromJson<AuditDetails>(row.details),
    previousHash: row.previousHash,
    hash: row.hash,
  };
}
