import { sha256 } from '@noble/hashes/sha2';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils';
import { canonicalJson, type Json } from './canonical.ts';
import type { MethodReference } from './method.ts';

/** A recipe of any kind: a document with a name, a version and a sentence for people. */
export interface NamedRecipe {
  readonly schema: string;
  readonly name: string;
  readonly version: number;
  readonly summary: string;
}

const references = new WeakMap<NamedRecipe, MethodReference>();

/**
 * What a result says of its method: name, version and hash.
 *
 * The hash is SHA-256, in lower-case hexadecimal, over the canonical JSON of the whole method but its `summary`, which is words
 * for people and may be put better without a new version. A method object is taken as unchangeable; its hash is kept.
 */
export function methodReference(method: NamedRecipe): MethodReference {
  let reference = references.get(method);
  if (reference === undefined) {
    reference = { name: method.name, version: method.version, sha256: methodHash(method) };
    references.set(method, reference);
  }
  return reference;
}

function methodHash(method: NamedRecipe): string {
  const { summary: _, ...hashed } = method;
  return bytesToHex(sha256(utf8ToBytes(canonicalJson(hashed as unknown as Json))));
}
