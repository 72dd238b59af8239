import type { SquadTable } from '@sthene/contract';
import { followWords } from '../../words/follow.ts';
import { Choice } from './choice.tsx';
import { positionsOf } from './filter.ts';
import { useChoice } from './use-choice.ts';

/** Position, and what may be pulled today; each only where somebody has it. */
export function Filters({ rows }: { rows: SquadTable['rows'] }) {
  const t = followWords.squad;
  const { position = '', may = '', choose } = useChoice();
  const positions = positionsOf(rows);
  return (
    <>
      {positions.length > 0 && (
        <Choice label={t.position} value={position} onChange={(value) => choose('position', value)}>
          <option value="">{t.everyPosition}</option>
          {positions.map((one) => (
            <option key={one} value={one}>
              {one}
            </option>
          ))}
        </Choice>
      )}
      {rows.some(({ availability }) => availability !== undefined) && (
        <Choice label={t.availability} value={may} onChange={(value) => choose('may', value)}>
          {Object.entries(t.available).map(([one, text]) => (
            <option key={one} value={one}>
              {text}
            </option>
          ))}
        </Choice>
      )}
    </>
  );
}

const views = ['table', 'figure', 'small'] as const;

/** The list as a table, as a figure of two values, or as a small figure for everybody. */
export function Views() {
  const t = followWords.squad;
  const { view = 'table', choose } = useChoice();
  return (
    <fieldset className="squad-views">
      <legend className="unseen">{t.show}</legend>
      {views.map((one) => (
        <label key={one}>
          <input type="radio" name="squad-view" checked={view === one} onChange={() => choose('view', one)} />
          {t.views[one]}
        </label>
      ))}
    </fieldset>
  );
}
