import { rigWords } from '../../../words/rig.ts';
import { matrixCells, matrixOf } from './matrix-text.ts';
import type { CalibrationForm } from './source-form.ts';

/** The matrix as it is understood: which number belongs to which signal and which channel. */
export function MatrixTable({ calibration: { signals, matrix, channels } }: { calibration: CalibrationForm }) {
  const t = rigWords.calibration;
  const cells = matrixCells(matrix);
  if (cells.length === 0) return null;
  const numbers = matrixOf(matrix);
  const columns = Math.max(signals.length, ...cells.map((row) => row.length));
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <section className="table-scroll" tabIndex={0} aria-label={t.read}>
      <table className="channel-table">
        <thead>
          <tr>
            <th scope="col">{t.makes}</th>
            {Array.from({ length: columns }, (_, i) => (
              <th key={i} scope="col" className="end">
                {signals[i] ?? t.noSignal}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {cells.map((row, r) => (
            <tr key={r}>
              <th scope="row">
                {channels[r]?.name ?? t.noMade} <span className="small soft">{channels[r]?.unit}</span>
              </th>
              {Array.from({ length: columns }, (_, c) => {
                const bad = typeof numbers[r]?.[c] !== 'number';
                return (
                  <td key={c} className={bad ? 'end number field-error' : 'end number'}>
                    {row[c] || t.noNumber}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
