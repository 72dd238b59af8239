import { addressOf, type LabId, type MethodSummary, methodRoutes, routes } from '@sthene/contract';
import {
  type AnyMethod,
  isJumpMethod,
  isVariant,
  type JumpMethod,
  jumpMethodSentences,
  type Method,
  methodReference,
} from '@sthene/core';
import { useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { Link, useParams, useSearchParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useMay } from '../../data/access.ts';
import { methodQuery, useMethods } from '../../data/methods.ts';
import { base } from '../../data/station.ts';
import { Answer } from '../../parts/answer.tsx';
import { Elsewhere } from '../../parts/elsewhere.tsx';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst } from '../../parts/signed.tsx';
import { methodWords as t } from '../../words/methods.ts';
import { DifferenceTable, Sentences } from './plain-method.tsx';
import { PreviewPart } from './preview-part.tsx';
import { StartDialog } from './start-dialog.tsx';
import '../../parts/form.css';
import './methods.css';

/** One method: in words, beside another one, tried on some trials, and the way to judge the archive with it. */
export function MethodScreen() {
  const lab = useLab() ?? 'lab';
  const { id = '' } = useParams();
  const found = useQuery(methodQuery(lab, id));
  usePageTitle(found.data?.name ?? t.title);
  return (
    <section className="page live-page method-page">
      <Link className="way-back" to={`/${lab}/methods`}>
        <Icon name="left" size={16} /> {t.back}
      </Link>
      <Answer page of={found}>
        {(data: AnyMethod) =>
          isJumpMethod(data) ? <JumpReading lab={lab} method={data} /> : <Reading key={id} lab={lab} method={data} />
        }
      </Answer>
    </section>
  );
}

/** A jump method: in words, and to save. */
function JumpReading({ lab, method }: { lab: LabId; method: JumpMethod }) {
  const { sha256 } = methodReference(method);
  return (
    <>
      <div className="page-head">
        <h1>{t.named(method.name, method.version)}</h1>
        <p className="soft">{method.summary}</p>
      </div>
      <div className="acts">
        <a
          className="button"
          href={`${base}${addressOf(routes.method, { lab, id: sha256 })}`}
          download={`${sha256.slice(0, 12)}.method.json`}
        >
          {t.save}
        </a>
      </div>
      <section className="panel" aria-labelledby="method-words">
        <h2 id="method-words">{t.plain}</h2>
        <ul className="method-sentences">
          {jumpMethodSentences(method).map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
        <p className="small soft method-hash">
          {t.hash} <span className="number">{sha256}</span>
        </p>
      </section>
    </>
  );
}

function Reading({ lab, method }: { lab: LabId; method: Method }) {
  const { sha256 } = methodReference(method);
  const methods = useMethods(lab);
  const own = methods.data?.find((one) => one.sha256 === sha256);
  const may = useMay();
  const [starting, setStarting] = useState(false);
  return (
    <>
      <div className="page-head">
        <h1>
          {t.named(method.name, method.version)}
          {own?.current && <span className="method-mark">{t.currentMark}</span>}
        </h1>
        <p className="soft">{method.summary}</p>
      </div>
      {may(methodRoutes.startRecomputation) && <SignFirst />}
      <div className="acts">
        {may(methodRoutes.startRecomputation) && !isVariant(method) && (
          <button type="button" className="button main" onClick={() => setStarting(true)}>
            {t.acts.judge}
          </button>
        )}
        {may(methodRoutes.succeedMethod) && (
          <Link className="button" to={`/${lab}/methods/${sha256}/edit`}>
            {t.acts.make}
          </Link>
        )}
        <a
          className="button"
          href={`${base}${addressOf(routes.method, { lab, id: sha256 })}`}
          download={`${sha256.slice(0, 12)}.method.json`}
        >
          {t.save}
        </a>
      </div>
      <Elsewhere unless={methodRoutes.startRecomputation} about="methods" />
      <div className="method-columns">
        <section className="panel" aria-labelledby="method-words">
          <h2 id="method-words">{t.plain}</h2>
          <Sentences method={method} />
          {method.derivedFrom && (
            <p className="small soft">
              {t.madeFrom(t.named(method.derivedFrom.name, method.derivedFrom.version))}{' '}
              <Link to={`/${lab}/methods/${sha256}?with=${method.derivedFrom.sha256}`}>{t.differences.title}</Link>
            </p>
          )}
          <p className="small soft method-hash">
            {t.hash} <span className="number">{sha256}</span>
          </p>
        </section>
        <Differences lab={lab} method={method} sha256={sha256} methods={methods.data ?? []} />
      </div>
      <PreviewPart lab={lab} method={{ method: sha256 }} />
      {starting && <StartDialog lab={lab} method={method} onClose={() => setStarting(false)} />}
    </>
  );
}

/** Beside the one named in the address, else the lab's own, else the first other one. */
function Differences({
  lab,
  method,
  sha256,
  methods,
}: {
  lab: LabId;
  method: Method;
  sha256: string;
  methods: readonly MethodSummary[];
}) {
  const id = useId();
  const [search, setSearch] = useSearchParams();
  const others = methods.filter((one) => one.sha256 !== sha256);
  const chosen =
    others.find((one) => one.sha256 === search.get('with')) ?? others.find(({ current }) => current) ?? others[0];
  const other = useQuery({ ...methodQuery(lab, chosen?.sha256 ?? ''), enabled: chosen !== undefined });
  const choose = (value: string) =>
    setSearch(
      (now) => {
        const next = new URLSearchParams(now);
        next.set('with', value);
        return next;
      },
      { replace: true },
    );
  if (chosen === undefined) return null;
  return (
    <section className="panel" aria-labelledby="method-differences">
      <h2 id="method-differences">{t.differences.title}</h2>
      <div className="field">
        <label htmlFor={id}>{t.differences.with}</label>
        <select id={id} value={chosen.sha256} onChange={(event) => choose(event.target.value)}>
          {others.map((one) => (
            <option key={one.sha256} value={one.sha256}>
              {t.named(one.name, one.version)}
            </option>
          ))}
        </select>
      </div>
      {other.isError && <ProblemCard error={other.error} onRetry={() => void other.refetch()} />}
      {other.data && <DifferenceTable before={other.data} after={method} names={[other.data.name, method.name]} />}
    </section>
  );
}
