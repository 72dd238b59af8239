import { useState } from 'react';
import { usePreference } from '../../data/use-preference.ts';
import { Icon } from '../../parts/icon.tsx';
import { importWords } from '../../words/importing.ts';
import { words } from '../../words/index.ts';
import { CurvePreview } from './curve-preview.tsx';
import { DryRun } from './dry-run.tsx';
import { groupOf, groupsOf, type Item, usable, type Who } from './state.ts';
import { StepHeading } from './steps.tsx';
import { TestFields } from './test-fields.tsx';
import { useDryRun } from './use-dry-run.ts';
import type { Import } from './use-import.ts';
import { useRun } from './use-run.ts';
import { WhenField } from './when-field.tsx';
import { WhoField } from './who-field.tsx';
import { whoName } from './who-name.ts';

/** Step 3: which test, whose, when; a dry run shows what would come of it. */
export function AthleteStep({ imported }: { imported: Import }) {
  const t = importWords.athlete;
  const { state, act } = imported;
  const items = usable(state.items);
  const [by, keepBy] = usePreference('signed-as');
  const name = state.by ?? by ?? '';
  const dry = useDryRun(imported);
  const run = useRun(imported);
  const [picked, setPicked] = useState<{ key: string; at: number }>();
  const shown = dry.rows.find(({ item, at }) => item.key === picked?.key && at === picked.at) ?? dry.rows[0];
  const shownItem = shown?.item ?? items[0];
  const shownDraft = shownItem && state.drafts[groupOf(shownItem)];
  const missing = missingOf(state.different, state.who, items, name, dry.rows.length > 0, dry.pending);

  return (
    <form
      className="step"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        if (missing !== undefined || run.busy) return;
        keepBy(name.trim());
        void run.start(items, name.trim());
      }}
    >
      <StepHeading step={3}>{t.title}</StepHeading>
      <div className="two">
        <div className="two-form">
          {!state.different && (
            <WhoField
              lab={imported.lab}
              who={state.who}
              onChange={(who) => act({ do: 'set', part: { who: who as Who, session: '' } })}
            />
          )}
          {items.length > 1 && (
            <label className="choice-line">
              <input
                type="checkbox"
                checked={state.different}
                onChange={(event) => act({ do: 'set', part: { different: event.target.checked, session: '' } })}
              />
              {t.different}
            </label>
          )}
          {state.different &&
            items.map((item) => (
              <WhoField
                key={item.key}
                lab={imported.lab}
                label={item.file.name}
                who={item.who}
                onChange={(who) => act({ do: 'item', key: item.key, part: { who: who as Who } })}
              />
            ))}
          <WhenField imported={imported} items={items} />
          {groupsOf(items).map(({ group, items: members }, i, all) => (
            <TestFields
              key={group}
              imported={imported}
              group={group}
              {...(all.length > 1 ? { name: members[0]?.file.name ?? '' } : {})}
              weight={i === 0 && !state.different}
            />
          ))}
          {!by || state.by !== undefined ? (
            <div className="field">
              <label htmlFor="import-by">{t.by}</label>
              <input
                id="import-by"
                value={name}
                maxLength={100}
                autoComplete="name"
                aria-describedby="import-by-help"
                onChange={(event) => act({ do: 'set', part: { by: event.target.value } })}
              />
              <p id="import-by-help" className="small soft">
                {t.byHelp}
              </p>
            </div>
          ) : (
            <p className="small soft">
              {words.app.signedAs} {by}
            </p>
          )}
        </div>
        <div className="two-see">
          {shownItem && shownDraft && (
            <CurvePreview
              imported={imported}
              item={shownItem}
              draft={shownDraft}
              label={shown?.trial.label ?? ''}
              result={shown?.trial.result}
            />
          )}
          <DryRun
            dry={dry}
            shown={shown}
            onShow={(row) => setPicked({ key: row.item.key, at: row.at })}
            single={items.length === 1}
          />
        </div>
      </div>
      <div className="step-end">
        <button type="button" className="button" onClick={() => act({ do: 'step', step: 2 })}>
          {importWords.back}
        </button>
        <p className="soft" role="status">
          {run.busy ? importWords.importing(run.done + 1, run.of) : (missing ?? '')}
        </p>
        <button type="submit" className="button main" disabled={missing !== undefined || run.busy}>
          <Icon name="counts" size={18} />
          {dry.rows.length > 0 ? importWords.act(dry.rows.length) : importWords.actNone}
        </button>
      </div>
    </form>
  );
}

/** What is still missing, said one at a time; undefined when the import may begin. */
function missingOf(
  different: boolean,
  who: Who | undefined,
  items: readonly Item[],
  by: string,
  trials: boolean,
  pending: boolean,
): string | undefined {
  const t = importWords.athlete.need;
  const all = different ? items.map((item) => item.who) : [who];
  if (all.some((one) => one === undefined || whoName(one) === '')) return t.who;
  if (by.trim() === '') return t.by;
  if (pending) return importWords.dry.running;
  return trials ? undefined : t.dryRun;
}
