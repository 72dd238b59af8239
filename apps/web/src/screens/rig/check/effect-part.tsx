import { type CorrectionEffect, type LabId, type RigView, rigCheckRoutes } from '@sthene/contract';
import { metricFacts } from '@sthene/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import { useMay } from '../../../data/access.ts';
import { correctionEffectQuery, useCheckAct } from '../../../data/rig-checks.ts';
import { numberText } from '../../../number/format.ts';
import { dayText, whenText } from '../../../number/when.ts';
import { ProblemCard } from '../../../parts/problem-card.tsx';
import { useSigned } from '../../../parts/signed.tsx';
import { useSay } from '../../../parts/status.tsx';
import { dayWords } from '../../../words/day.ts';
import { words } from '../../../words/index.ts';
import { rigCheckWords } from '../../../words/rig-check.ts';
import { inSentence } from '../../../words/title.ts';

const t = rigCheckWords.effect;
const day = (milliseconds: number) => dayText(new Date(milliseconds).toISOString());

/** What the correction in force would do to earlier sessions of chosen days, and the offer to judge them again. */
export function EffectPart({ lab, rig, correction }: { lab: LabId; rig: RigView; correction: string }) {
  const [span, setSpan] = useState(() => ({ from: day(Date.now() - 30 * 86_400_000), until: day(Date.now()) }));
  const [asked, setAsked] = useState<typeof span>();
  const [reason, setReason] = useState('');
  const [done, setDone] = useState<CorrectionEffect>();
  const act = useCheckAct(lab, rig.id);
  const may = useMay();
  const by = useSigned();
  const say = useSay();
  const effect = useQuery({
    ...correctionEffectQuery(lab, rig.id, { correction, ...(asked ?? span) }),
    enabled: asked !== undefined,
  });
  const sessions = effect.data?.sessions ?? [];
  const text = (value: number | undefined, unit: string) =>
    value === undefined ? '' : `${numberText(value, 1)}\u00a0${unit}`;
  return (
    <section aria-labelledby="effect">
      <h3 id="effect">{t.title}</h3>
      <p className="small soft">{t.help}</p>
      <form
        className="typed-reading"
        onSubmit={(event) => {
          event.preventDefault();
          setDone(undefined);
          setAsked({ ...span });
        }}
      >
        {(['from', 'until'] as const).map((end) => (
          <div key={end} className="field">
            <label htmlFor={`effect-${end}`}>{t[end]}</label>
            <input
              id={`effect-${end}`}
              type="date"
              value={span[end]}
              onChange={(event) => setSpan({ ...span, [end]: event.target.value })}
            />
          </div>
        ))}
        <button type="submit" className="button">
          {t.look}
        </button>
      </form>
      {effect.isFetching && (
        <p className="soft" role="status">
          {words.app.loading}
        </p>
      )}
      {effect.isError && <ProblemCard error={effect.error} />}
      {done !== undefined && (
        <p role="status">
          {t.done(done.sessions.length)} {done.leftOut !== undefined && t.leftOut(done.leftOut)}
        </p>
      )}
      {effect.data && sessions.length === 0 && done === undefined && <p>{t.none}</p>}
      {sessions.length > 0 && (
        <>
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard */}
          <section className="table-scroll" tabIndex={0} aria-label={t.title}>
            <table className="check-table">
              <thead>
                <tr>
                  <th scope="col">{t.head.when}</th>
                  <th scope="col">{t.head.who}</th>
                  <th scope="col" className="end">
                    {t.head.trials}
                  </th>
                  <th scope="col" className="end">
                    {t.head.before}
                  </th>
                  <th scope="col" className="end">
                    {t.head.after}
                  </th>
                </tr>
              </thead>
              <tbody>
                {sessions.map((one) => (
                  <tr key={one.session}>
                    <th scope="row">
                      <Link to={`/${lab}/sessions/${one.session}`}>{whenText(one.startedAt)}</Link>
                    </th>
                    <td>
                      {one.name}
                      {one.metric !== 'peak_force' && (
                        <span className="small soft">
                          {' '}
                          {inSentence(metricFacts.get(one.metric)?.title ?? one.metric)}
                        </span>
                      )}
                    </td>
                    <td className="end number">{one.trials}</td>
                    <td className="end number">{text(one.before, one.unit)}</td>
                    <td className="end number">{text(one.after, one.unit)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
          <p className="small soft">{t.limits}</p>
          {may(rigCheckRoutes.applyCorrection) && asked && (
            <form
              className="typed-reading"
              onSubmit={(event) => {
                event.preventDefault();
                if (!by) return say(dayWords.sign.needed);
                act.mutate(
                  { kind: 'apply', correction, ...asked, reason, by },
                  { onSuccess: (kept) => setDone(kept as CorrectionEffect) },
                );
              }}
            >
              <div className="field">
                <label htmlFor="effect-reason">{rigCheckWords.correction.reason}</label>
                <input
                  id="effect-reason"
                  value={reason}
                  maxLength={2000}
                  onChange={(event) => setReason(event.target.value)}
                />
              </div>
              <button type="submit" className="button" disabled={act.isPending || reason.trim().length < 3}>
                {t.act(sessions.length)}
              </button>
            </form>
          )}
        </>
      )}
      {act.isError && <ProblemCard error={act.error} />}
    </section>
  );
}
