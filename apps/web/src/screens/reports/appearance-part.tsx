import {
  type LabId,
  type ReportAppearance,
  reportLanguage,
  reportPaper,
  reportRoutes,
  unknownAge,
} from '@sthene/contract';
import { useId, useState } from 'react';
import { useMay } from '../../data/access.ts';
import { useChangeAppearance } from '../../data/reports.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { reportWords } from '../../words/reports.ts';
import { Choice } from '../athletes/choice.tsx';
import { type LogoDraft, LogoField } from './logo-field.tsx';

const t = reportWords.look;

/** Name, logo and usual choices of the lab; set on the station, shown to everybody. */
export function AppearancePart({ lab, look }: { lab: LabId; look: ReportAppearance }) {
  const may = useMay()(reportRoutes.changeReportAppearance);
  const by = useSigned();
  const [draft, setDraft] = useState(look);
  const [logo, setLogo] = useState<LogoDraft>({ kind: 'kept' });
  const change = useChangeAppearance(lab);
  const [nameId, zoneId] = [useId(), useId()];
  const set = <K extends keyof ReportAppearance>(key: K, value: ReportAppearance[K]) => {
    change.reset();
    setDraft({ ...draft, [key]: value });
  };
  const save = (event: React.FormEvent) => {
    event.preventDefault();
    const { logo: _, ...values } = draft;
    const sent = logo.kind === 'kept' ? {} : { logo: logo.kind === 'new' ? logo.data : null };
    change.mutate({ ...values, ...sent, by }, { onSuccess: () => setLogo({ kind: 'kept' }) });
  };
  return (
    <details className="panel report-look">
      <summary>{t.title}</summary>
      {!may && <p className="small soft">{t.elsewhere}</p>}
      {may && <SignFirst />}
      <form onSubmit={save}>
        <fieldset disabled={!may || change.isPending}>
          <div className="field">
            <label htmlFor={nameId}>{t.name}</label>
            <input
              id={nameId}
              required
              maxLength={100}
              value={draft.labName}
              onChange={(event) => set('labName', event.target.value)}
            />
          </div>
          <LogoField
            kept={look.logo}
            draft={logo}
            onChange={(next) => {
              change.reset();
              setLogo(next);
            }}
          />
          <div className="report-two">
            <Choice
              label={reportWords.language}
              value={draft.language}
              onChange={(value) => set('language', reportLanguage.parse(value))}
            >
              {reportLanguage.options.map((one) => (
                <option key={one} value={one}>
                  {reportWords.languages[one]}
                </option>
              ))}
            </Choice>
            <Choice
              label={reportWords.paper}
              value={draft.paper}
              onChange={(value) => set('paper', reportPaper.parse(value))}
            >
              {reportPaper.options.map((one) => (
                <option key={one} value={one}>
                  {reportWords.papers[one]}
                </option>
              ))}
            </Choice>
          </div>
          <div className="field">
            <label htmlFor={zoneId}>{t.zone}</label>
            <input
              id={zoneId}
              required
              maxLength={60}
              autoCapitalize="off"
              spellCheck={false}
              value={draft.zone}
              onChange={(event) => set('zone', event.target.value)}
            />
          </div>
          <Choice
            label={t.unknownAge}
            value={draft.unknownAge}
            onChange={(value) => set('unknownAge', unknownAge.parse(value))}
          >
            {unknownAge.options.map((one) => (
              <option key={one} value={one}>
                {t.unknown[one]}
              </option>
            ))}
          </Choice>
          {may && (
            <div className="acts">
              <button type="submit" className="button" disabled={by === ''}>
                {t.save}
              </button>
              <span className="small soft" role="status">
                {change.isSuccess ? t.saved : ''}
              </span>
            </div>
          )}
        </fieldset>
        {change.isError && <ProblemCard error={change.error} />}
      </form>
    </details>
  );
}
