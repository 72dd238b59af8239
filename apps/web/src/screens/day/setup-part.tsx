import type { DayEntry } from '@sthene/contract';
import type { SetupField } from '@sthene/core';
import { useId } from 'react';
import { whenText } from '../../number/when.ts';
import { dayWords } from '../../words/day.ts';
import { setupWords } from '../trial/setup-words.ts';
import type { Setup } from './setup.ts';
import { type SetupFieldProps, useSetupDraft } from './use-setup-draft.ts';

/** How the athlete is set up; last time's setup is recalled and taken over with one touch. */
export function SetupPart({
  entry,
  fields,
  onKeep,
}: {
  entry: DayEntry;
  fields: readonly SetupField[];
  onKeep: (setup: Setup) => void;
}) {
  const t = dayWords.setup;
  const form = useSetupDraft(fields, entry.setup, entry.setup, onKeep);
  const last = entry.lastSetup;
  const missing = (entry.setupMissing ?? []).map((id) => fields.find((one) => one.id === id)?.title ?? id);
  const now = setupWords(entry.test, entry.setup, fields);
  return (
    <section className="detail">
      <h3>{t.title}</h3>
      {now.length > 0 && <p>{now.join(', ')}</p>}
      {missing.length > 0 && <p className="setup-missing">{t.missing(missing.join(', '))}</p>}
      {last ? (
        <>
          <p className="small soft">
            {t.last(whenText(last.at, false))}: {setupWords(entry.test, last.values, fields).join(', ')}
          </p>
          <div className="acts">
            <button
              type="button"
              className="button main"
              onClick={() => {
                form.fill(last.values);
                onKeep(last.values);
              }}
            >
              {t.same}
            </button>
          </div>
        </>
      ) : (
        <p className="small soft">{t.noLast}</p>
      )}
      <details open={!last && now.length === 0}>
        <summary>{t.byHand}</summary>
        <form className="setup-fields" onSubmit={form.submit}>
          {fields.map((field) => (
            <Field key={field.id} {...form.of(field)} />
          ))}
          <button type="submit" className="button">
            {t.save}
          </button>
        </form>
      </details>
    </section>
  );
}

function Field({ field, value, wrong, onChange }: SetupFieldProps) {
  const t = dayWords.setup;
  const id = useId();
  const choices = field.kind === 'yes-no' ? ['yes', 'no'] : field.kind === 'choice' ? field.choices : undefined;
  return (
    <div className="field">
      <label htmlFor={id}>
        {field.title}
        {field.unit ? ` (${field.unit})` : ''}
      </label>
      {choices ? (
        <select id={id} value={value} onChange={(event) => onChange(event.target.value)}>
          <option value="">{t.unset}</option>
          {choices.map((one) => (
            <option key={one} value={one}>
              {one}
            </option>
          ))}
        </select>
      ) : (
        <input
          id={id}
          inputMode={field.kind === 'number' ? 'decimal' : 'text'}
          value={value}
          aria-invalid={wrong}
          {...(wrong ? { 'aria-describedby': `${id}wrong` } : {})}
          onChange={(event) => onChange(event.target.value)}
        />
      )}
      {wrong && (
        <p id={`${id}wrong`} className="field-error small">
          {t.wrong}
        </p>
      )}
    </div>
  );
}
