import type { LabId, RigCheckDocumentView, RigCheckResultView, RigCheckView } from '@sthene/contract';
import { numberText } from '../../../number/format.ts';
import { whenText } from '../../../number/when.ts';
import { ReportLink } from '../../../parts/report-link.tsx';
import { rigCheckWords as t } from '../../../words/rig-check.ts';
import { StandingMark } from '../standing-mark.tsx';
import { newtonText, shortfallText, standingOfVerdict } from './check-text.ts';
import { ErrorFigure } from './error-figure.tsx';
import { FiguresTable } from './figures-table.tsx';
import { SpotsPart } from './spots-part.tsx';

/** A kept check: the verdict in words, every figure against its limit, and the errors by load. */
export function CheckResult({ check, lab }: { check: RigCheckView; lab: LabId }) {
  return (
    <section className="panel" aria-labelledby="check-result">
      <div className="check-head">
        <h2 id="check-result">{t.result.title}</h2>
        <span className="soft">
          {whenText(check.at)}, {t.history.by(check.by)}
        </span>
        <ReportLink lab={lab} of={{ kind: 'plates', rig: check.rig, check: check.id }} />
      </div>
      <Verdict result={check.result} />
      {check.note && <p>{check.note}</p>}
      <Figures result={check.result} document={check.document} />
      <p className="small soft">{t.noCertificate}</p>
    </section>
  );
}

export function Verdict({ result }: { result: RigCheckResultView }) {
  return (
    <>
      <p className="check-verdict" role="status">
        <StandingMark standing={standingOfVerdict[result.verdict]} /> <strong>{t.verdicts[result.verdict]}</strong>
      </p>
      {result.shortfalls.length > 0 && (
        <ul className="dots">
          {result.shortfalls.map((one) => (
            <li key={`${one.code}${one.plate ?? ''}`}>{shortfallText(one)}</li>
          ))}
        </ul>
      )}
    </>
  );
}

/** Figures by plate, with the errors by load drawn and in numbers. */
export function Figures({ result, document }: { result: RigCheckResultView; document: RigCheckDocumentView }) {
  const { uncertainty } = result;
  return (
    <>
      {result.quantities.length > 0 && (
        <div className="figures-box">
          <FiguresTable result={result} />
        </div>
      )}
      <div className="check-plates">
        {result.plates.map((plate) => (
          <section key={plate.plate} aria-label={t.plate(plate.plate)}>
            <h3>{t.plate(plate.plate)}</h3>
            {plate.largestLoad > 0 && <ErrorFigure figures={plate} limits={document.limits} />}
            {result.spots
              .filter((one) => one.plate === plate.plate)
              .map((one) => (
                <SpotsPart key={one.plate} spots={one} />
              ))}
            <LoadTable figures={plate} />
          </section>
        ))}
      </div>
      {result.checkedTo > 0 && <p>{t.result.checkedTo(newtonText(result.checkedTo))}</p>}
      {uncertainty && (
        <p>
          {t.result.uncertainty(
            `${numberText(100 * uncertainty.rig.gain, 3)}\u00a0%`,
            `${numberText(Math.hypot(uncertainty.rig.repeatability, uncertainty.rig.linearity), 2)}\u00a0N`,
          )}
        </p>
      )}
    </>
  );
}

function LoadTable({ figures }: { figures: RigCheckResultView['plates'][number] }) {
  const { result } = t;
  const text = (value: number | undefined) => (value === undefined ? result.none : newtonText(value));
  return (
    <details>
      <summary>{result.loads(figures.plate)}</summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard */}
      <section className="table-scroll" tabIndex={0} aria-label={result.loads(figures.plate)}>
        <table className="check-table">
          <thead>
            <tr>
              {[result.load, result.up, result.down, result.error, result.hysteresis].map((one) => (
                <th key={one} scope="col" className="end">
                  {one}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {figures.loads.map((one) => (
              <tr key={one.load}>
                <th scope="row" className="end number">
                  {newtonText(one.load)}
                </th>
                <td className="end number">{text(one.up)}</td>
                <td className="end number">{text(one.down)}</td>
                <td className="end number">{text(one.error)}</td>
                <td className="end number">
                  {one.up === undefined || one.down === undefined ? result.none : text(one.down - one.up)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </details>
  );
}
