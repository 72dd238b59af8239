import type { SetupField } from '@sthene/core';

export type Setup = Record<string, string | number | boolean>;

/** What stands in the fields while one types. */
export type SetupDraft = Record<string, string>;

/** A setup as texts of its fields; fields of another test are kept aside untouched. */
export function draftOf(fields: readonly SetupField[], setup: Setup): SetupDraft {
  return Object.fromEntries(
    fields.map(({ id, kind }) => {
      const value = setup[id];
      if (value === undefined) return [id, ''];
      return [id, kind === 'yes-no' ? (value === true ? 'yes' : 'no') : String(value)];
    }),
  );
}

/** The texts as a setup, and the fields whose number cannot be read. Empty fields are left out; a decimal comma is one. */
export function setupOf(
  fields: readonly SetupField[],
  draft: SetupDraft,
  before: Setup,
): { setup: Setup; wrong: string[] } {
  const known = new Set(fields.map(({ id }) => id));
  const setup: Setup = Object.fromEntries(Object.entries(before).filter(([id]) => !known.has(id)));
  const wrong: string[] = [];
  for (const { id, kind } of fields) {
    const text = (draft[id] ?? '').trim();
    if (text === '') continue;
    if (kind === 'yes-no') setup[id] = text === 'yes';
    else if (kind === 'number') {
      const value = Number(text.replace(',', '.'));
      if (Number.isFinite(value)) setup[id] = value;
      else wrong.push(id);
    } else setup[id] = text;
  }
  return { setup, wrong };
}
