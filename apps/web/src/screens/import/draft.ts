import type { Mapping } from '@sthene/contract';
import { convertible, protocolRegistry, standardGravity, unitOf } from '@sthene/core';
import { importWords } from '../../words/importing.ts';
import type { Input, Look, Reading, SourceInfo, Why } from './worker/messages.ts';

export type Part = Input['part'] | 'no';

/** One row of the mapping as it stands in the form; numbers are text until they are used. */
export interface DraftInput {
  readonly kind: 'channel' | 'platform';
  readonly index: number;
  readonly name: string;
  readonly use: Part;
  readonly unit: string;
  readonly flipped: boolean;
  readonly gain: string;
  readonly zero: string;
}

/** The mapping of all files with one header, as it stands in the form. */
export interface Draft {
  readonly reading: Reading;
  readonly inputs: readonly DraftInput[];
  readonly test: string;
  readonly efforts: 'largest' | 'all';
  readonly why: readonly Why[];
  /** The kept mapping it was filled from. */
  readonly from?: { readonly name: string; readonly lastUsed: string };
  /** A person chose the test or the efforts; no proposal replaces them. */
  readonly testChosen?: boolean;
  /** Nothing has to be asked. */
  readonly certain: boolean;
  readonly remember: boolean;
  readonly rememberAs: string;
}

/** Reasons of a proposal that leave a question open. */
const open = new Set([
  'force-sides-unknown',
  'force-many-platforms',
  'force-none-found',
  'force-needs-calibration',
  'force-unit-assumed',
]);

/** A draft filled with what the file proposes. */
export function proposedDraft(look: Look, reading: Reading, name: string): Draft {
  const { proposal, suggestion } = look;
  const chosen = manyByName(look) ? [] : (proposal?.selection?.inputs ?? []);
  return {
    reading,
    inputs: rows(look, chosen),
    test: suggestion?.test ?? 'imtp',
    efforts: suggestion?.efforts ?? 'largest',
    why: suggestion?.why ?? [],
    certain:
      chosen.length > 0 && look.error === undefined && !(proposal?.reasons ?? []).some(({ code }) => open.has(code)),
    remember: false,
    rememberAs: name.replace(/\.[^.]+$/, '').slice(0, 60),
  };
}

/** A draft filled from a kept mapping; undefined when the file lacks a source it names. */
export function keptDraft(look: Look, kept: { name: string; lastUsed: string; mapping: Mapping }): Draft | undefined {
  const { mapping, name, lastUsed } = kept;
  const there = (input: Input) =>
    look.recording?.sources.some(({ kind, index }) => kind === input.from.kind && index === input.from.index);
  if (!mapping.inputs.every(there)) return undefined;
  return {
    reading: mapping.reading,
    inputs: rows(look, mapping.inputs),
    test: mapping.test,
    efforts: mapping.efforts,
    why: [{ code: 'remembered' }],
    from: { name, lastUsed },
    certain: true,
    remember: true,
    rememberAs: name,
  };
}

const most = 8;

/** Many columns that only name a side are body parts of a motion capture, not plates: nothing is chosen for them. */
export function manyByName({ proposal }: Look): boolean {
  const inputs = proposal?.selection?.inputs ?? [];
  const unsure = proposal?.candidates.filter(({ confidence }) => confidence === 'unsure').length ?? 0;
  return inputs.length > most && unsure >= inputs.length && inputs.every(({ from }) => from.kind === 'channel');
}

function rows(look: Look, chosen: readonly Partial<Input>[]): DraftInput[] {
  return (look.recording?.sources ?? []).map((source) => {
    const input = chosen.find(({ from }) => from?.kind === source.kind && from.index === source.index);
    return {
      kind: source.kind,
      index: source.index,
      name: source.name,
      use: input?.part ?? 'no',
      unit: input?.unit ?? source.unit,
      flipped: input?.sign === -1,
      gain: input?.newtonsPerUnit === undefined ? '' : String(input.newtonsPerUnit),
      zero: input?.zero === undefined ? '' : String(input.zero),
    };
  });
}

/** A number as people type it: point or comma, a true minus too. Undefined when it is none. */
export function numberIn(text: string): number | undefined {
  const plain = text.trim().replace(',', '.').replace('\u2212', '-');
  const value = plain === '' ? Number.NaN : Number(plain);
  return Number.isFinite(value) ? value : undefined;
}

/** A mapping ready to be sent, or what is still missing, in words. */
export type Checked<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly missing: string };

/** The inputs of a draft, or what is missing. `sources` are those of the file, for their own units. */
export function inputsOf(draft: Pick<Draft, 'inputs'>, sources: readonly SourceInfo[]): Checked<Input[]> {
  const t = importWords.columns;
  const used = draft.inputs.filter(({ use }) => use !== 'no');
  if (used.length === 0) return { ok: false, missing: t.needSome };
  const inputs: Input[] = [];
  for (const row of used) {
    const gain = numberIn(row.gain);
    const zero = numberIn(row.zero);
    if (row.gain.trim() !== '' && gain === undefined) return { ok: false, missing: t.badNumber(t.gain, row.name) };
    if (row.zero.trim() !== '' && zero === undefined) return { ok: false, missing: t.badNumber(t.zero, row.name) };
    if (gain === undefined && !measures(row.unit)) return { ok: false, missing: t.needUnit(row.name) };
    const own = sources.find(({ kind, index }) => kind === row.kind && index === row.index)?.unit;
    inputs.push({
      from: { kind: row.kind, index: row.index },
      part: row.use as Input['part'],
      ...(row.unit === own || row.unit === '' ? {} : { unit: row.unit }),
      ...(row.flipped ? { sign: -1 as const } : {}),
      ...(gain === undefined ? {} : { newtonsPerUnit: gain }),
      ...(zero === undefined ? {} : { zero }),
    });
  }
  return { ok: true, value: inputs };
}

/** A force or a torque; a mass reading is neither until it has a gain. */
const measures = (unit: string) => {
  const dimension = unitOf(unit)?.dimension;
  return dimension === 'force' || dimension === 'torque';
};

/** Whether the chosen inputs can be used in a test: one with body weight needs newtons. */
export const fitsTest = (inputs: readonly Input[], sources: readonly SourceInfo[], test: string): boolean =>
  protocolRegistry.get(test)?.load !== 'weight' ||
  inputs.every(({ from, unit, newtonsPerUnit }) => {
    const own = sources.find(({ kind, index }) => kind === from.kind && index === from.index)?.unit ?? '';
    return newtonsPerUnit !== undefined || convertible(unit ?? own, 'N');
  });

/** The whole mapping. Body weight is given in newtons or kilograms. */
export function mappingOf(
  draft: Draft,
  sources: readonly SourceInfo[],
  weight: { readonly text: string; readonly unit: 'kg' | 'N' },
): Checked<Mapping> {
  const inputs = inputsOf(draft, sources);
  if (!inputs.ok) return inputs;
  const value = numberIn(weight.text);
  if (weight.text.trim() !== '' && (value === undefined || value <= 0))
    return { ok: false, missing: importWords.athlete.bodyWeightBad };
  const newtons = value === undefined ? undefined : value * (weight.unit === 'kg' ? standardGravity : 1);
  const carried = protocolRegistry.get(draft.test)?.load === 'weight' && newtons !== undefined;
  return {
    ok: true,
    value: {
      reading: draft.reading,
      inputs: inputs.value,
      test: draft.test,
      efforts: draft.efforts,
      ...(carried ? { bodyWeight: newtons } : {}),
    },
  };
}
