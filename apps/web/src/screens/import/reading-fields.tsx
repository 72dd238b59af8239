import { useEffect, useId, useState } from 'react';
import { numberText } from '../../number/format.ts';
import { importWords } from '../../words/importing.ts';
import { numberIn } from './draft.ts';
import type { Look, Reading } from './worker/messages.ts';

interface ReadingFieldsProps {
  readonly reading: Reading;
  readonly look: Look;
  onChange(reading: Reading): void;
}

/** How a text file is read. Closed while everything was understood; open when an answer is needed. */
export function ReadingFields({ reading, look, onChange }: ReadingFieldsProps) {
  const t = importWords.reading;
  const { text, error } = look;
  const id = useId();
  // It opens when an answer is needed and stays as the person leaves it: a field must not vanish under the hand.
  const [open, setOpen] = useState(error !== undefined || text?.confidence === 'low');
  useEffect(() => {
    if (error !== undefined) setOpen(true);
  }, [error]);
  if (!text) return null;
  const set = (part: { [K in keyof Reading]?: Reading[K] | '' }) => {
    const next = { ...reading, ...part } as Record<string, unknown>;
    for (const key of Object.keys(next))
      if (next[key] === '' && !(key === 'delimiter' && 'delimiter' in part)) delete next[key];
    onChange(next as Reading);
  };
  const timeName = text.columns.find(({ number }) => number === text.time?.column)?.name;
  const foundTime = timeName === undefined ? t.timeNone : t.timeColumn(timeName);
  return (
    <details className="reading" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{t.title}</summary>
      <ul className="small soft reasons">
        {text.reasons.map((reason) => (
          <li key={reason}>{reason}</li>
        ))}
      </ul>
      {look.error && (
        <p className="field-error" role="alert">
          {look.error.message} {look.error.next}
        </p>
      )}
      <div className="reading-fields">
        <RateField
          value={reading.rate}
          found={text.rate?.hertz}
          onChange={(rate) => set({ rate: rate ?? '' } as never)}
        />
        <Choice
          id={`${id}time`}
          label={t.time}
          value={reading.time === undefined ? '' : String(reading.time)}
          found={foundTime}
          options={[
            ['none', t.timeNone],
            ...text.columns
              .filter(({ role }) => role !== 'text' && role !== 'empty')
              .map(({ number, name }) => [String(number), t.timeColumn(name)] as const),
          ]}
          onChange={(value) => set({ time: value === '' || value === 'none' ? value : Number(value) } as never)}
        />
        <Choice
          id={`${id}layout`}
          label={t.layout}
          value={reading.layout ?? ''}
          found={t.layouts[text.layout]}
          options={[
            ['channels', t.layouts.channels],
            ['trials', t.layouts.trials],
          ]}
          onChange={(layout) => set({ layout } as never)}
        />
        <Choice
          id={`${id}delimiter`}
          label={t.delimiter}
          value={reading.delimiter ?? '\u0000'}
          none={'\u0000'}
          found={t.delimiters[text.delimiter] ?? text.delimiter}
          options={Object.entries(t.delimiters)}
          onChange={(delimiter) => {
            const { delimiter: _, ...rest } = reading;
            onChange(delimiter === '\u0000' ? rest : { ...rest, delimiter });
          }}
        />
        <Choice
          id={`${id}decimal`}
          label={t.decimal}
          value={reading.decimal ?? ''}
          found={t.decimals[text.decimal] ?? text.decimal}
          options={Object.entries(t.decimals)}
          onChange={(decimal) => set({ decimal } as never)}
        />
        <Choice
          id={`${id}header`}
          label={t.header}
          value={reading.header === undefined ? '' : String(reading.header)}
          found={text.headerRow === undefined ? t.headerNone : t.headerRow(text.headerRow)}
          options={[
            ['none', t.headerNone],
            ...Array.from(
              { length: Math.max(10, text.dataRow) },
              (_, i) => [String(i + 1), t.headerRow(i + 1)] as const,
            ),
          ]}
          onChange={(value) => set({ header: value === '' || value === 'none' ? value : Number(value) } as never)}
        />
      </div>
      {look.recording && look.recording.notices.length > 0 && (
        <>
          <h3>{t.notices}</h3>
          <ul className="small reasons">
            {look.recording.notices.map((one) => (
              <li key={`${one.code} ${one.message}`}>{one.message}</li>
            ))}
          </ul>
        </>
      )}
    </details>
  );
}

interface ChoiceProps {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly found: string;
  /** Value that stands for "as found". */
  readonly none?: string;
  readonly options: readonly (readonly [string, string])[];
  onChange(value: string): void;
}

function Choice({ id, label, value, found, none = '', options, onChange }: ChoiceProps) {
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onChange(event.target.value)}>
        <option value={none}>{importWords.reading.automatic(found)}</option>
        {options.map(([code, words]) => (
          <option key={code} value={code}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
}

interface RateFieldProps {
  readonly value: number | undefined;
  readonly found: number | undefined;
  onChange(rate: number | undefined): void;
}

/** The rate is read again only when the field is left or Enter is pressed, not at each digit. */
function RateField({ value, found, onChange }: RateFieldProps) {
  const t = importWords.reading;
  const [draft, setDraft] = useState(value === undefined ? '' : String(value));
  const id = useId();
  useEffect(() => setDraft(value === undefined ? '' : String(value)), [value]);
  const leave = () => {
    const rate = numberIn(draft);
    if (rate !== value && (rate === undefined || rate > 0)) onChange(rate);
  };
  return (
    <div className="field">
      <label htmlFor={id}>{t.rate}</label>
      <input
        id={id}
        inputMode="decimal"
        value={draft}
        placeholder={found === undefined ? '' : t.automatic(numberText(found, Number.isInteger(found) ? 0 : 2))}
        aria-describedby={`${id}help`}
        onChange={(event) => setDraft(event.target.value)}
        onBlur={leave}
        onKeyDown={(event) => {
          if (event.key === 'Enter') leave();
        }}
      />
      <p id={`${id}help`} className="small soft">
        {t.rateHelp}
      </p>
    </div>
  );
}
