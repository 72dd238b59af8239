import type { RigCheckResultView } from '@sthene/contract';
import { rigCheckWords as t } from '../../../words/rig-check.ts';
import { StandingMark } from '../standing-mark.tsx';
import { foundText, limitText, newtonText, standingOfQuantity } from './check-text.ts';

type Judged = RigCheckResultView['quantities'][number];

/** Every figure against its limit, the plates side by side; what belongs to the rig as a whole stands across them. */
export function FiguresTable({
  result: { quantities, plates },
}: {
  result: Pick<RigCheckResultView, 'quantities' | 'plates'>;
}) {
  const ids = [...new Set(quantities.map(({ id }) => id))];
  const names = plates.map(({ plate }) => plate);
  const { head } = t.result;
  return (
    <table className="check-table figures-table">
      <thead>
        <tr>
          <th scope="col">{head.what}</th>
          {names.map((plate) => (
            <th key={plate} scope="col" className="end">
              {t.plate(plate)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {ids.map((id) => {
          const found = quantities.filter((one) => one.id === id);
          const [first, whole] = [found[0] as Judged, found.find(({ plate }) => plate === undefined)];
          return (
            <tr key={id} data-quantity={id}>
              <th scope="row">
                {t.quantities[id]}{' '}
                <span className="number small" title={first.limit.source}>
                  {limitText(first)}
                </span>
                {t.means[id] && <span className="small soft figure-means">{t.means[id]}</span>}
              </th>
              {whole ? (
                <td className="end" colSpan={names.length}>
                  <Found of={whole} />
                </td>
              ) : (
                names.map((plate) => {
                  const one = found.find((each) => each.plate === plate);
                  return (
                    <td key={plate} className="end" data-plate={plate}>
                      {one && <Found of={one} />}
                    </td>
                  );
                })
              )}
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function Found({ of }: { of: Judged }) {
  return (
    <div className="figure-found">
      <span className="number">{foundText(of)}</span>
      <StandingMark standing={standingOfQuantity[of.standing]} word={t.standings[of.standing]} />
      {of.load !== undefined && <span className="small soft number">{t.result.at(newtonText(of.load))}</span>}
    </div>
  );
}
