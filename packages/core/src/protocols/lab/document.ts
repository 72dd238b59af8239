import { sha256 } from '@noble/hashes/sha2';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils';
import { canonicalJson, type Json } from '../../methods/canonical.ts';
import type { SetupField } from '../protocol.ts';
import type { SubmaximalEffort } from '../running.ts';

/**
 * How a lab runs a test, as data: one version of a named protocol. Never edited, only succeeded; what a day used stays readable
 * for ever by its hash. Seconds are seconds of samples, shares lie between 0 and 1.
 */
export interface ProtocolDocument {
  readonly schema: 'sthene.protocol/1';
  readonly name: string;
  readonly version: number;
  /** One sentence for people; not part of the hash. */
  readonly summary: string;
  /** Why this version was made; not part of the hash. */
  readonly note: string;
  /** The version this one follows. */
  readonly succeeds?: { readonly version: number; readonly sha256: string };
  /** The test it builds on: posture, load, limbs, pool and cautions come from there and cannot be changed. */
  readonly test: { readonly id: string; readonly version: number };
  readonly warmUp: {
    /** What is done before the rig, in the order it is done, in words. */
    readonly steps: readonly string[];
    /** Ask before the first effort whether it was done. */
    readonly confirm: boolean;
    readonly efforts: readonly SubmaximalEffort[];
    /** Rest after a submaximal effort, s. */
    readonly rest: number;
  };
  /** Maximal efforts: so many must count for a complete session, so many are aimed at, and after so many the set closes. */
  readonly maximal: { readonly minimum: number; readonly planned: number; readonly maximum: number };
  /** Rest after a maximal effort, s; after the longest one a submaximal effort comes first. */
  readonly rest: { readonly minimum: number; readonly maximum: number };
  readonly cue: {
    /** Word for word. */
    readonly words: string;
    /** `spoken`: count and cue are also said by the device; the tone sounds in both and times the pull. */
    readonly voice: 'tone' | 'spoken';
    /** Counted seconds before the cue. */
    readonly count: number;
    /** Hands-free: steady tension for so long starts the count, s. */
    readonly delay: number;
  };
  readonly pull: {
    /** "Stop" is said after this time, s. */
    readonly seconds: number;
    /** A pull held for less asks for a second look, s. */
    readonly warnUnder: number;
    /** A pull held for less does not count, s. */
    readonly failUnder: number;
  };
  /** Another maximal effort is asked for while the two best differ by more. */
  readonly extraTrial: {
    /** N, or the unit of the test. */
    readonly difference: number;
    /** As a share of the best; takes the place of `difference` where given. */
    readonly share?: number;
    /** Share for athletes under 18 where no `share` is given. */
    readonly minorShare: number;
  };
  readonly stop: {
    /** So many maximal efforts in a row that do not count. */
    readonly rejectedInARow: number;
    /** A peak this share below the best of the day, although the effort counts. */
    readonly fall?: number;
    /** What follows: it is said to the operator, or the maximal efforts end. */
    readonly act: 'advise' | 'close';
  };
  /** What differs from the lab's method, by check. */
  readonly checks: Readonly<Record<string, ProtocolCheck>>;
  readonly setupFields: readonly SetupField[];
  /** Rules of this place; they stand before the cautions of the test, which always stay. */
  readonly localRules: readonly string[];
}

/** A check switched, or with other limits than the method's. */
export interface ProtocolCheck {
  readonly use: boolean;
  readonly limits?: Readonly<Record<string, number>>;
}

/** What a session says of its protocol. */
export interface ProtocolReference {
  readonly name: string;
  readonly version: number;
  readonly sha256: string;
}

const references = new WeakMap<ProtocolDocument, ProtocolReference>();

/**
 * Name, version and hash of a protocol.
 *
 * The hash is SHA-256, in lower-case hexadecimal, over the canonical JSON (RFC 8785) of the whole document but `summary` and
 * `note`, which are words for people. A document object is taken as unchangeable; its hash is kept.
 */
export function protocolReference(document: ProtocolDocument): ProtocolReference {
  let reference = references.get(document);
  if (reference === undefined) {
    const { summary: _, note: __, ...hashed } = document;
    const hash = bytesToHex(sha256(utf8ToBytes(canonicalJson(hashed as unknown as Json))));
    reference = { name: document.name, version: document.version, sha256: hash };
    references.set(document, reference);
  }
  return reference;
}
