import type { LabId } from '@sthene/contract';
import {
  protocolAdvice,
  protocolDifferences,
  protocolSentences,
  protocolSizes,
  titleAt,
  validateProtocol,
} from '@sthene/core';
import { type KeyboardEvent, useMemo, useState } from 'react';
import { Link, useNavigate } from 'react-router';
import { useProtocolAct } from '../../data/protocols.ts';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { protocolWords } from '../../words/protocols.ts';
import type { Beginning } from './edit-screen.tsx';
import { FindingsBelow, TextInput } from './fields.tsx';
import { documentOf, formOf } from './form.ts';
import { ChecksPart, EffortPart, NamePart, RulesPart, SetupFieldsPart, WarmUpPart } from './form-parts.tsx';
import { useDraft } from './use-draft.ts';

const t = protocolWords.edit;

/** The form on one side; what it would mean, what is wrong and what deserves a thought on the other. */
export function Editor({ lab, beginning }: { lab: LabId; beginning: Beginning }) {
  const { id, document: before, after } = beginning;
  const start = useMemo(() => ({ ...formOf(before), ...(id === undefined ? { name: '' } : {}) }), [before, id]);
  const draft = useDraft(`${lab} protocol ${id ?? `from ${after.sha256}`}`, after.sha256, start);
  const [tried, setTried] = useState(false);
  const act = useProtocolAct(lab);
  const navigate = useNavigate();
  const by = useSigned();
  const say = useSay();
  const { form, set } = draft;
  const version = id === undefined ? 1 : before.version + 1;
  const document = useMemo(() => documentOf(form, version), [form, version]);
  const outcome = useMemo(() => validateProtocol(document), [document]);
  const faults = outcome.ok ? [] : outcome.faults;
  const advice = outcome.ok ? protocolAdvice(outcome.document) : [];
  // An empty name is no fault before somebody has tried to save.
  const shown = tried ? faults : faults.filter(({ at, code }) => !(at === 'name' && code === 'protocol-empty'));
  const same = id !== undefined && outcome.ok && protocolDifferences(before, outcome.document).length === 0;
  const missing = id !== undefined && form.note.trim() === '' ? t.noteNeeded : same ? t.nothingNew : '';

  const save = () => {
    setTried(true);
    if (!outcome.ok || missing !== '') return;
    if (!by) return say(dayWords.sign.needed);
    act.mutate(
      id === undefined ? { kind: 'create', document, by } : { kind: 'succeed', id, document, after: after.sha256, by },
      {
        onSuccess: (view) => {
          draft.drop();
          say(t.saved(view.versions[0]?.document.version ?? version));
          void navigate(`/${lab}/protocols/${view.id}`);
        },
      },
    );
  };
  const keys = (event: KeyboardEvent) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    const back = key === 'z' && !event.shiftKey;
    const forth = key === 'y' || (key === 'z' && event.shiftKey);
    if (!back && !forth) return;
    event.preventDefault();
    if (back) draft.undo();
    else draft.redo();
  };

  return (
    <FindingsBelow value={{ faults: shown, advice }}>
      <div className="page-head">
        <h1>{id === undefined ? t.newTitle : t.title(before.name)}</h1>
        <p className="soft">{t.lead}</p>
      </div>
      <SignFirst />
      {draft.found && (
        <div className="band">
          <p>{t.draft}</p>
          <div className="acts">
            <button type="button" className="button" onClick={draft.throwAway}>
              {t.throwAway}
            </button>
          </div>
        </div>
      )}
      <form
        className="protocol-columns"
        noValidate
        onKeyDown={keys}
        onSubmit={(event) => {
          event.preventDefault();
          save();
        }}
      >
        <div className="protocol-form">
          <NamePart form={form} set={set} />
          <WarmUpPart form={form} set={set} />
          <EffortPart form={form} set={set} />
          <RulesPart form={form} set={set} />
          <SetupFieldsPart form={form} set={set} />
          <ChecksPart form={form} set={set} />
        </div>
        <aside className="protocol-side">
          <section className="panel" aria-labelledby="in-words">
            <h2 id="in-words">{protocolWords.plain}</h2>
            {outcome.ok ? (
              <ul className="sentences">
                {protocolSentences(outcome.document).map((one) => (
                  <li key={one}>{one}</li>
                ))}
              </ul>
            ) : (
              <p className="soft">{t.faults(faults.length)}</p>
            )}
            {shown.length > 0 && (
              <ul className="dots small fault-list">
                {shown.map((one) => (
                  <li key={`${one.at} ${one.code}`}>
                    <b>{titleAt(one.at, before)}</b>: {one.words}
                  </li>
                ))}
              </ul>
            )}
            {advice.length > 0 && (
              <>
                <h3>{protocolWords.advice}</h3>
                <ul className="dots small">
                  {advice.map((one) => (
                    <li key={`${one.at} ${one.code}`}>{one.words}</li>
                  ))}
                </ul>
              </>
            )}
          </section>
          <section className="panel">
            {id !== undefined && (
              <TextInput
                at="note"
                label={t.note}
                value={form.note}
                hint={t.noteHint}
                most={protocolSizes.note}
                onChange={(note) => set({ note }, 'note')}
              />
            )}
            {act.isError && <ProblemCard error={act.error} />}
            <p className={tried && (missing !== '' || !outcome.ok) ? 'field-error' : 'soft'} role="status">
              {!outcome.ok ? t.faults(faults.length) : missing || t.fine}
            </p>
            <div className="acts">
              <button type="submit" className="button main" disabled={act.isPending}>
                {t.save(version)}
              </button>
              <button type="button" className="button" disabled={!draft.canUndo} onClick={draft.undo}>
                <Icon name="undo" size={16} /> {t.undo}
              </button>
              <button type="button" className="button" disabled={!draft.canRedo} onClick={draft.redo}>
                <Icon name="redo" size={16} /> {t.redo}
              </button>
              <Link className="button quiet" to={`/${lab}/protocols${id === undefined ? '' : `/${id}`}`}>
                {t.cancel}
              </Link>
            </div>
          </section>
        </aside>
      </form>
    </FindingsBelow>
  );
}
