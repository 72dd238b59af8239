import type { LabId } from '@sthene/contract';
import { type Method, methodReference, methodRegistry, succeedMethod } from '@sthene/core';
import { useEffect, useMemo, useState } from 'react';
import { Link, useNavigate } from 'react-router';
import { dropDraft, keepDraft, readDraft } from '../../data/drafts.ts';
import { useSucceed } from '../../data/methods.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { methodWords } from '../../words/methods.ts';
import { ChecksPart, NamePart, NumbersPart, OnsetPart, SetPart } from './editor-parts.tsx';
import { draftOf, formOf, isMethodForm, type MethodForm } from './method-form.ts';
import { DifferenceTable } from './plain-method.tsx';
import { PreviewPart } from './preview-part.tsx';

const t = methodWords.edit;

/** The form on one side; what changes, a trial of it, and keeping it on the other. */
export function MethodEditor({ lab, before }: { lab: LabId; before: Method }) {
  const { sha256 } = methodReference(before);
  const draftName = `${lab} method from ${sha256}`;
  const start = useMemo(() => {
    const builtIn = methodRegistry.all.some(({ method }) => method.name === before.name);
    return { ...formOf(before), ...(builtIn ? { name: '' } : {}) };
  }, [before]);
  const [found] = useState(() => {
    const kept = readDraft(draftName);
    return isMethodForm(kept) ? kept : undefined;
  });
  const [form, setForm] = useState<MethodForm>(found ?? start);
  const [tried, setTried] = useState(false);
  const act = useSucceed(lab);
  const by = useSigned();
  const say = useSay();
  const navigate = useNavigate();
  useEffect(() => {
    if (form === start) dropDraft(draftName);
    else keepDraft(draftName, form);
  }, [draftName, form, start]);
  const set = (part: Partial<MethodForm>) => setForm((now) => ({ ...now, ...part }));
  const draft = useMemo(() => draftOf(form, before), [form, before]);
  // Tried and shown under a name of its own, so that a missing name does not hide what changes.
  const named = form.name.trim() === '' ? { ...draft, name: '(new)' } : draft;
  const outcome = useMemo(() => succeedMethod(before, named, []), [before, named]);
  const problems = outcome.ok ? [] : outcome.problems;
  const unchanged = problems.some(({ code }) => code === 'method-unchanged');
  const faults = new Map(problems.filter(({ at }) => at !== '').map(({ at, expected }) => [at, t.expected(expected)]));
  if (tried && form.name.trim() === '') faults.set('name', t.expected('a name'));

  const save = () => {
    setTried(true);
    if (!outcome.ok || form.name.trim() === '') return;
    if (!by) return say(dayWords.sign.needed);
    act.mutate(
      { after: sha256, document: { ...draft }, by },
      {
        onSuccess: (made) => {
          dropDraft(draftName);
          say(t.saved(made.name, made.version));
          void navigate(`/${lab}/methods/${made.sha256}?with=${sha256}`);
        },
      },
    );
  };

  return (
    <>
      <div className="page-head">
        <h1>{t.title(methodWords.named(before.name, before.version))}</h1>
        <p className="soft">{t.lead}</p>
      </div>
      <SignFirst />
      {found !== undefined && form !== start && (
        <div className="band">
          <p>{t.draft}</p>
          <div className="acts">
            <button type="button" className="button" onClick={() => setForm(start)}>
              {t.throwAway}
            </button>
          </div>
        </div>
      )}
      <form
        className="method-columns"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          save();
        }}
      >
        <div className="method-form">
          <NamePart form={form} set={set} faults={faults} before={before} />
          <OnsetPart form={form} set={set} faults={faults} before={before} />
          <NumbersPart form={form} set={set} faults={faults} before={before} />
          <SetPart form={form} set={set} faults={faults} before={before} />
          <ChecksPart form={form} set={set} faults={faults} before={before} />
        </div>
        <aside className="method-side">
          <section className="panel" aria-labelledby="method-changes">
            <h2 id="method-changes">{t.changes}</h2>
            {outcome.ok ? (
              <DifferenceTable before={before} after={outcome.method} names={[before.name, form.name || '…']} />
            ) : (
              <p className={unchanged ? 'soft' : 'field-error'} role="status">
                {unchanged ? t.nothing : t.wrong(faults.size || problems.length)}
              </p>
            )}
            {act.isError && <ProblemCard error={act.error} />}
            <div className="acts">
              <button type="submit" className="button main" disabled={act.isPending || unchanged}>
                {t.save}
              </button>
              <Link className="button quiet" to={`/${lab}/methods/${sha256}`}>
                {t.cancel}
              </Link>
            </div>
          </section>
        </aside>
      </form>
      {outcome.ok && <PreviewPart lab={lab} method={{ document: { ...named } }} />}
    </>
  );
}
