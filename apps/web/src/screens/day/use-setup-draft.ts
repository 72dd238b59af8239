import type { SetupField } from '@sthene/core';
import { type FormEvent, useState } from 'react';
import { draftOf, type Setup, setupOf } from './setup.ts';

/** What one field of a setup shows and does. */
export interface SetupFieldProps {
  readonly field: SetupField;
  readonly value: string;
  readonly wrong: boolean;
  readonly onChange: (value: string) => void;
}

/**
 * A setup as it is being typed: nothing is kept before every field can be read.
 *
 * @param kept values that fields of the protocol do not ask for stay as they are here
 * @param before what stands in the fields at first
 */
export function useSetupDraft(
  fields: readonly SetupField[],
  kept: Setup,
  before: Setup,
  onKeep: (setup: Setup) => void,
) {
  const [draft, setDraft] = useState(() => draftOf(fields, before));
  const [wrong, setWrong] = useState<readonly string[]>([]);
  return {
    fill: (values: Setup) => setDraft(draftOf(fields, values)),
    submit(event: FormEvent) {
      event.preventDefault();
      const made = setupOf(fields, draft, kept);
      setWrong(made.wrong);
      if (made.wrong.length === 0) onKeep(made.setup);
    },
    of: (field: SetupField): SetupFieldProps => ({
      field,
      value: draft[field.id] ?? '',
      wrong: wrong.includes(field.id),
      onChange: (value) => setDraft({ ...draft, [field.id]: value }),
    }),
  };
}
