import type { DayEntry } from '@sthene/contract';
import type { SetupField } from '@sthene/core';
import { useId } from 'react';
import { Dialog } from '../../parts/dialog.tsx';
import { liveWords as words } from '../../words/live.ts';
import type { Setup } from '../day/setup.ts';
import { type SetupFieldProps, useSetupDraft } from '../day/use-setup-draft.ts';

interface SetupDialogProps {
  readonly entry: DayEntry;
  /** As the day's protocol has them. */
  readonly fields: readonly SetupField[];
  readonly onKeep: (setup: Setup) => void;
  readonly onClose: () => void;
}

/** Today's setup by a few taps: numbers go up and down from where they were last time, choices are touched. */
export function SetupDialog({ entry, fields, onKeep, onClose }: SetupDialogProps) {
  const { setup: say } = words;
  const before = Object.keys(entry.setup).length > 0 ? entry.setup : (entry.lastSetup?.values ?? {});
  const form = useSetupDraft(fields, entry.setup, before, onKeep);
  return (
    <Dialog title={say.title(entry.person.name)} wide onClose={onClose}>
      <form className="dialog-form setup-form" onSubmit={form.submit}>
        {fields.map((field) => (
          <Field key={field.id} {...form.of(field)} />
        ))}
        <div className="dialog-acts">
          <button type="submit" className="button main big">
            {say.keep}
          </button>
          <button type="button" className="button big" onClick={onClose}>
            {say.cancel}
          </button>
        </div>
      </form>
    </Dialog>
  );
}

function Field({ field, value, wrong, onChange }: SetupFieldProps) {
  const choices = field.kind === 'yes-no' ? ['yes', 'no'] : field.kind === 'choice' ? field.choices : undefined;
  return choices === undefined ? (
    <Typed field={field} value={value} wrong={wrong} onChange={onChange} />
  ) : (
    <fieldset className="setup-choice">
      <legend>{field.title}</legend>
      <div className="joined">
        {choices.map((one) => (
          <button
            key={one}
            type="button"
            className="button big"
            aria-pressed={value === one}
            onClick={() => onChange(value === one ? '' : one)}
          >
            {one}
          </button>
        ))}
      </div>
    </fieldset>
  );
}

function Typed({ field, value, wrong, onChange }: SetupFieldProps) {
  const { setup: say } = words;
  const id = useId();
  const number = Number(value.replace(',', '.'));
  const by = (step: number) => onChange(String((Number.isFinite(number) ? number : 0) + step));
  const title = `${field.title}${field.unit ? ` (${field.unit})` : ''}`;
  return (
    <div className="setup-typed">
      <label htmlFor={id}>{title}</label>
      <div className="setup-input">
        {field.kind === 'number' && value !== '' && (
          <button type="button" className="button big square" aria-label={say.less(title)} onClick={() => by(-1)}>
            &minus;
          </button>
        )}
        <input
          id={id}
          inputMode={field.kind === 'number' ? 'decimal' : 'text'}
          value={value}
          maxLength={200}
          aria-invalid={wrong}
          onChange={(event) => onChange(event.target.value)}
        />
        {field.kind === 'number' && value !== '' && (
          <button type="button" className="button big square" aria-label={say.more(title)} onClick={() => by(1)}>
            +
          </button>
        )}
      </div>
      {wrong && (
        <p className="field-error small" role="alert">
          {say.wrong}
        </p>
      )}
    </div>
  );
}
