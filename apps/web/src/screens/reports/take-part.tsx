import type { LabId, ReportContent } from '@sthene/contract';
import { useState } from 'react';
import { reportAddress } from '../../data/reports.ts';
import { copyParts } from '../../parts/copy-parts.ts';
import { Icon } from '../../parts/icon.tsx';
import { reportWords as t } from '../../words/reports.ts';
import { queryOf, type ReportChoice } from './use-report.ts';

interface TakeProps {
  readonly lab: LabId;
  readonly report: ReportChoice;
  readonly content: ReportContent;
}

/** Everything a report may be taken along as: files whole, tables and figures alone. */
export function TakePart({ lab, report, content }: TakeProps) {
  const [said, setSaid] = useState('');
  const asked = queryOf(report);
  const paper = report.paper === undefined ? {} : { paper: report.paper };
  const file = (as: 'pdf' | 'xlsx' | 'csv' | 'svg' | 'png', part?: string) =>
    reportAddress(lab, report.kind, { ...asked, ...paper, as, ...(part === undefined ? {} : { part }) });
  const copy = (table: ReportContent['tables'][number]) =>
    copyParts({ 'text/html': table.html, 'text/plain': table.tabbed }).then(
      () => setSaid(t.copied),
      () => setSaid(t.notCopied),
    );
  return (
    <section className="panel report-take" aria-labelledby="report-take">
      <h2 id="report-take">{t.take}</h2>
      <div className="acts">
        <a className="button main" href={file('pdf')} download={`${content.file}.pdf`}>
          <Icon name="out" />
          {t.pdf}
        </a>
        <a className="button" href={file('xlsx')} download={`${content.file}.xlsx`}>
          {t.workbook}
        </a>
        <span className="small soft" role="status">
          {said}
        </span>
      </div>
      <ul className="report-parts">
        {content.tables.map((table) => (
          <li key={`table-${table.id}`}>
            <span>
              {table.title} <span className="small soft">{t.rows(table.rows)}</span>
            </span>
            <span className="joined">
              <button
                type="button"
                className="button"
                aria-label={t.copyOf(table.title)}
                onClick={() => void copy(table)}
              >
                {t.copy}
              </button>
              <a
                className="button"
                href={file('csv', table.id)}
                download={`${content.file}-${table.id}.csv`}
                aria-label={t.csvOf(table.title)}
              >
                CSV
              </a>
            </span>
          </li>
        ))}
        {content.figures.map((figure) => {
          const title = figure.caption.split('. ')[0] ?? figure.caption;
          return (
            <li key={`figure-${figure.id}`}>
              <span>{title}</span>
              <span className="joined">
                <a
                  className="button"
                  href={file('svg', figure.id)}
                  download={`${content.file}-${figure.id}.svg`}
                  aria-label={t.svgOf(title)}
                >
                  SVG
                </a>
                <a
                  className="button"
                  href={file('png', figure.id)}
                  download={`${content.file}-${figure.id}.png`}
                  aria-label={t.pngOf(title)}
                >
                  PNG
                </a>
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
