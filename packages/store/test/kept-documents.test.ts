import type { TrialResult } from '@sthene/core';
import { expect, it } from 'vitest';
import { keptDocuments } from '../src/records/kept-documents.ts';

const document = (verdict: string) => ({ verdict }) as unknown as TrialResult;

it('keeps documents by what their texts take together, and lets those go that were asked for longest ago', () => {
  const kept = keptDocuments(100);
  for (const id of ['a', 'b', 'c']) kept.put(id, document(id), 30);
  expect(kept.get('a')).toEqual(document('a'));
  kept.put('d', document('d'), 40);
  expect(['a', 'b', 'c', 'd'].map((id) => kept.get(id) !== undefined)).toEqual([true, false, true, true]);
});

it('keeps nothing that alone would be too large, and pushes nothing out for it', () => {
  const kept = keptDocuments(100);
  kept.put('a', document('a'), 60);
  kept.put('b', document('b'), 101);
  expect([kept.get('a'), kept.get('b')]).toEqual([document('a'), undefined]);
});

it('counts a document once that is read twice', () => {
  const kept = keptDocuments(100);
  kept.put('a', document('a'), 60);
  kept.put('a', document('a'), 60);
  kept.put('b', document('b'), 40);
  expect([kept.get('a'), kept.get('b')]).toEqual([document('a'), document('b')]);
});
