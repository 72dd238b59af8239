import { useState } from 'react';
import { whenText } from '../../number/when.ts';
import { importWords } from '../../words/importing.ts';
import { CurvePreview } from './curve-preview.tsx';
import { type Draft, inputsOf, manyByName } from './draft.ts';
import { FirstRows } from './first-rows.tsx';
import { InputsTable } from './inputs-table.tsx';
import { ReadingFields } from './reading-fields.tsx';
import { groupsOf, type Item } from './state.ts';
import { StepHeading } from './steps.tsx';
import type { Import } from './use-import.ts';

const reasonsShown = 6;

/** Step 2: what the columns are. One mapping for all files with the same header. */
export function ColumnsStep({ imported }: { imported: Import }) {
  const t = importWords.columns;
  const groups = groupsOf(imported.state.items);
  const [chosen, setChosen] = useState<string>();
  const current = groups.find(({ group }) => group === chosen) ?? groups[0];
  const missing = groups.map(({ group, items }) => missingOf(imported.state.drafts[group], items[0]));
  const draft = current && imported.state.drafts[current.group];
  const first = current?.items[0];
  return (
    <div className="step">
      <StepHeading step={2}>{t.title}</StepHeading>
      {groups.length > 1 && (
        <fieldset className="groups">
          <legend>{t.groups}</legend>
          {groups.map(({ group, items }, i) => (
            <button
              key={group}
              type="button"
              className="button"
              aria-pressed={group === current?.group}
              onClick={() => setChosen(group)}
            >
              {t.group(items[0]?.file.name ?? '', items.length)}
              {missing[i] !== undefined && <span className="group-open"> {importWords.file.question}</span>}
            </button>
          ))}
        </fieldset>
      )}
      {current && draft && first && (
        <Mapping key={current.group} imported={imported} group={current.group} draft={draft} item={first} />
      )}
      <div className="step-end">
        <button type="button" className="button" onClick={() => imported.act({ do: 'step', step: 1 })}>
          {importWords.back}
        </button>
        <p className="soft" role="status">
          {missing.find((one) => one !== undefined) ?? ''}
        </p>
        <button
          type="button"
          className="button main"
          disabled={missing.some((one) => one !== undefined)}
          onClick={() => void proposeTests(imported).then(() => imported.act({ do: 'step', step: 3 }))}
        >
          {importWords.next}
        </button>
      </div>
    </div>
  );
}

/** Other inputs may speak for another test: it is proposed again, unless a person or a kept mapping chose it. */
async function proposeTests({ state, preview, act }: Import): Promise<void> {
  for (const { group, items } of groupsOf(state.items)) {
    const draft = state.drafts[group];
    const [first] = items;
    if (!draft || !first || draft.testChosen || draft.from) continue;
    const inputs = inputsOf(draft, first.look?.recording?.sources ?? []);
    if (!inputs.ok || !preview) continue;
    const ask = { file: first.file, reading: draft.reading, inputs: inputs.value };
    const { suggestion } = await preview.suggest(ask).catch(() => ({ suggestion: undefined }));
    if (suggestion) act({ do: 'draft', group, draft: { ...draft, ...suggestion } });
  }
}

/** What keeps a group from going on, in words. */
export function missingOf(draft: Draft | undefined, item: Item | undefined): string | undefined {
  if (!draft || !item?.look) return '';
  if (item.look.error) return item.look.error.message;
  const inputs = inputsOf(draft, item.look.recording?.sources ?? []);
  if (!inputs.ok) return inputs.missing;
  return draft.remember && draft.rememberAs.trim() === '' ? importWords.columns.rememberNeed : undefined;
}

function Mapping({ imported, group, draft, item }: { imported: Import; group: string; draft: Draft; item: Item }) {
  const t = importWords.columns;
  const { look } = item;
  const set = (part: Partial<Draft>) => imported.act({ do: 'draft', group, draft: { ...draft, ...part } });
  if (!look) return null;
  const kept = imported.templates.find(({ signature }) => signature === look.signature);
  const proposed = look.proposal?.reasons ?? [];
  const reasons = manyByName(look)
    ? [t.tooMany(look.proposal?.selection?.inputs.length ?? 0)]
    : [...new Set(proposed.map(({ message }) => message))];
  return (
    <div className="two">
      <div className="two-form">
        <section className="why" aria-label={t.proposal} hidden={!draft.from && !kept && reasons.length === 0}>
          <h2>{t.proposal}</h2>
          {draft.from ? (
            <p>
              {t.remembered(draft.from.name, whenText(draft.from.lastUsed, false))}{' '}
              <button type="button" className="link" onClick={() => void imported.fill(group, undefined)}>
                {t.notRemembered}
              </button>
            </p>
          ) : (
            <>
              {draft.certain && <p>{t.certain}</p>}
              <ul>
                {reasons.slice(0, reasonsShown).map((message) => (
                  <li key={message}>{message}</li>
                ))}
                {reasons.length > reasonsShown && <li className="soft">{t.more(reasons.length - reasonsShown)}</li>}
              </ul>
              {kept && (
                <button type="button" className="link" onClick={() => void imported.fill(group, kept)}>
                  {t.useRemembered}
                </button>
              )}
            </>
          )}
        </section>
        {look.text && (
          <ReadingFields
            reading={draft.reading}
            look={look}
            onChange={(reading) => void imported.readAs(group, reading)}
          />
        )}
        {look.recording && (
          <InputsTable inputs={draft.inputs} look={look} onChange={(inputs) => set({ inputs, certain: true })} />
        )}
        <div className="remember">
          <label className="choice-line">
            <input
              type="checkbox"
              checked={draft.remember}
              onChange={(event) => set({ remember: event.target.checked })}
            />
            {t.remember}
          </label>
          {draft.remember && (
            <div className="field">
              <label htmlFor={`remember-${group}`}>{t.rememberName}</label>
              <input
                id={`remember-${group}`}
                value={draft.rememberAs}
                maxLength={60}
                onChange={(event) => set({ rememberAs: event.target.value })}
              />
            </div>
          )}
        </div>
      </div>
      <div className="two-see">
        <CurvePreview imported={imported} item={item} draft={draft} />
        {look.rows && <FirstRows name={item.file.name} rows={look.rows} />}
      </div>
    </div>
  );
}
