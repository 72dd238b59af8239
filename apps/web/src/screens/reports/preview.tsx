import type { LabId, ReportAppearance, ReportContent } from '@sthene/contract';
import { useState } from 'react';
import { reportAddress } from '../../data/reports.ts';
import { reportWords as t } from '../../words/reports.ts';
import { queryOf, type ReportChoice } from './use-report.ts';

/** px; until the page has said how long it is. */
const usualHeight = 1000;

interface PreviewProps {
  readonly lab: LabId;
  readonly report: ReportChoice;
  readonly content: ReportContent;
  readonly look: ReportAppearance | undefined;
}

/** Whatever changes how the same address looks. */
const looks = (look: ReportAppearance | undefined): string =>
  look === undefined
    ? ''
    : [
        look.labName,
        look.zone,
        look.language,
        look.unknownAge,
        look.logo?.data.slice(-64),
        look.logo?.data.length,
      ].join();

/** The report as a page of its own: paper in every theme, without scripts, as tall as what it says. */
export function Preview({ lab, report, content, look }: PreviewProps) {
  const [height, setHeight] = useState(usualHeight);
  const address = reportAddress(lab, report.kind, { ...queryOf(report), as: 'html' });
  const measure = (frame: HTMLIFrameElement) => {
    const page = frame.contentDocument?.documentElement;
    if (page) setHeight(page.scrollHeight + 8);
  };
  return (
    <figure className="report-preview">
      <iframe
        key={address + looks(look)}
        className="report-sheet"
        src={address}
        title={t.preview(content.title, content.subject)}
        sandbox="allow-same-origin"
        height={height}
        onLoad={(event) => measure(event.currentTarget)}
      />
      <figcaption className="small soft">{t.previewNote}</figcaption>
    </figure>
  );
}
