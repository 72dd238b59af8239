import { type ReportAppearance, reportLanguage, reportPaper } from '@sthene/contract';
import { reportWords as t } from '../../words/reports.ts';
import { Choice } from '../athletes/choice.tsx';
import type { ReportChoice } from './use-report.ts';

/** Language and paper of this report; what the lab chose unless said otherwise. */
export function PaperFields({ look, report }: { look: ReportAppearance; report: ReportChoice }) {
  return (
    <div className="report-two">
      <Choice label={t.language} value={report.language ?? ''} onChange={(value) => report.choose('language', value)}>
        <option value="">{t.usual(t.languages[look.language])}</option>
        {reportLanguage.options.map((one) => (
          <option key={one} value={one}>
            {t.languages[one]}
          </option>
        ))}
      </Choice>
      <Choice label={t.paper} value={report.paper ?? ''} onChange={(value) => report.choose('paper', value)}>
        <option value="">{t.usual(t.papers[look.paper])}</option>
        {reportPaper.options.map((one) => (
          <option key={one} value={one}>
            {t.papers[one]}
          </option>
        ))}
      </Choice>
    </div>
  );
}
