import { metricFacts } from '@sthene/core';
import { quantityText } from '../../number/format.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { StateMark } from '../../parts/state-mark.tsx';
import { importWords } from '../../words/importing.ts';
import { reasonWords } from '../../words/index.ts';
import { problemLike } from './problem-like.ts';
import type { DryRun as Dry, DryRow } from './use-dry-run.ts';

interface DryRunProps {
  readonly dry: Dry;
  readonly shown: DryRow | undefined;
  readonly single: boolean;
  onShow(row: DryRow): void;
}

/** What the import would make: each trial with its verdict and peak force; a click shows it on the curve. */
export function DryRun({ dry, shown, single, onShow }: DryRunProps) {
  const t = importWords.dry;
  const { rows, skipped, problems, notices, missing } = dry;
  const files = new Set(rows.map(({ item }) => item.key)).size;
  const jump = rows.find(({ trial }) => trial.headline !== undefined)?.trial.headline;
  const of = (verdict: string) => rows.filter(({ trial }) => trial.verdict === verdict).length;
  return (
    <section className="dry" aria-label={t.title} aria-busy={dry.pending}>
      <div className="dry-head">
        <h2>{t.title}</h2>
        <p className="small soft" role="status">
          {dry.pending && rows.length === 0
            ? t.running
            : rows.length > 0
              ? `${t.counts(files, rows.length, skipped.length)}: ${t.verdicts(of('counts'), of('look-again'), of('repeat'))}`
              : ''}
        </p>
      </div>
      {missing && <p className="field-error">{missing}</p>}
      {problems.map(({ item, problem }) => (
        <div key={item.key}>
          {!single && <p className="file-name">{item.file.name}</p>}
          <ProblemCard error={problemLike(problem)} />
        </div>
      ))}
      {rows.length > 0 && (
        <div className="dry-rows">
          <table>
            <thead>
              <tr>
                <th scope="col">{t.head.file}</th>
                <th scope="col">{t.head.verdict}</th>
                <th scope="col" className="right">
                  {jump === undefined ? t.head.peak : metricFacts.get(jump.metric)?.title}
                </th>
              </tr>
            </thead>
            <tbody>
              {rows.map((row) => (
                <tr key={`${row.item.key} ${row.at}`} data-shown={row === shown}>
                  <th scope="row">
                    <button
                      type="button"
                      className="link"
                      aria-pressed={row === shown}
                      title={t.show(nameOf(row))}
                      onClick={() => onShow(row)}
                    >
                      {nameOf(row)}
                    </button>
                  </th>
                  <td>
                    <StateMark state={row.trial.verdict} />
                    {row.trial.reason && <span className="small soft"> {reasonWords(row.trial.reason)}</span>}
                  </td>
                  <td className="right number">{peakOf(row)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {skipped.length > 0 && (
        <ul className="small soft">
          {skipped.map(({ item, label, why }) => (
            <li key={`${item.key} ${label}`}>
              {label || item.file.name}: {t.skipped}. {why}
            </li>
          ))}
        </ul>
      )}
      {notices.length > 0 && (
        <details className="small">
          <summary>{t.notices(notices.length)}</summary>
          <ul className="reasons">
            {notices.map(({ item, message }) => (
              <li key={`${item.key} ${message}`}>{single ? message : `${item.file.name}: ${message}`}</li>
            ))}
          </ul>
        </details>
      )}
      <p className="small soft">{t.note}</p>
    </section>
  );
}

/** A trial's name: its label in the file, else the file, with its number where a file gives several. */
function nameOf({ item, at, trial }: DryRow): string {
  if (trial.label !== '') return trial.label;
  return at === 0 ? item.file.name : `${item.file.name}, ${importWords.dry.trialN(at + 1)}`;
}

export function peakOf({ trial }: Pick<DryRow, 'trial'>): string {
  if (trial.headline)
    return quantityText(trial.headline.value, trial.headline.unit, { sampleRate: trial.result?.sampleRate ?? 1000 });
  if (trial.peakForce === undefined) return importWords.dry.none;
  return quantityText(trial.peakForce, trial.unit, { sampleRate: trial.result?.sampleRate ?? 1000, noise: 1 });
}
