import type { ImportRequest } from '@sthene/contract';
import { type Checked, mappingOf } from './draft.ts';
import { groupOf, type Item, type State } from './state.ts';
import { fieldTime, instantIn, ownTime } from './when.ts';

/** What a file's import asks of the station, without who; or what is missing. */
export function requestOf(state: State, item: Item): Checked<Omit<ImportRequest, 'person' | 'by'>> {
  const draft = state.drafts[groupOf(item)];
  if (!draft || !item.upload) return { ok: false, missing: '' };
  const weight = state.different ? { text: '', unit: 'kg' as const } : state.weight;
  const mapping = mappingOf(draft, item.look?.recording?.sources ?? [], weight);
  if (!mapping.ok) return mapping;
  const startedAt = instantIn(state.when === '' ? fieldTime(ownTime(item).at) : state.when);
  const signature = item.look?.signature;
  const name = draft.rememberAs.trim();
  return {
    ok: true,
    value: {
      upload: item.upload.id,
      mapping: mapping.value,
      onDuplicate: item.onDuplicate,
      ...(startedAt === undefined ? {} : { startedAt }),
      ...(state.session === '' ? {} : { session: state.session }),
      ...(draft.remember && signature !== undefined && name !== '' ? { remember: { signature, name } } : {}),
    },
  };
}
