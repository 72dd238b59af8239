import type { LabId, SquadTable, SquadTableRow } from '@sthene/contract';
import { Link } from 'react-router';
import { numberText, signedText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { useTwoGoes } from '../../parts/use-two-goes.ts';
import { athleteWords as t } from '../../words/athletes.ts';
import { wordText } from './change-word.ts';
import { type Order, pressed, type Sort } from './order.ts';
import { differenceText, percentText, valueText } from './values.ts';

interface SquadListProps {
  readonly lab: LabId;
  readonly table: SquadTable;
  /** In the order that is chosen. */
  readonly rows: readonly SquadTableRow[];
  readonly order: Order;
  readonly onOrder: (order: string) => void;
}

/** The squad in one value: newest, place, change, when. Each row leads to the athlete. */
export function SquadList({ lab, table, rows, order, onOrder }: SquadListProps) {
  const shown = useTwoGoes(rows);
  const head = (by: Sort, text: string, right = false) => (
    <th
      scope="col"
      className={right ? 'right' : undefined}
      aria-sort={order.by === by ? (order.down ? 'descending' : 'ascending') : undefined}
    >
      <button
        type="button"
        className="follow-sort"
        aria-label={t.sortBy(text)}
        onClick={() => onOrder(pressed(order, by))}
      >
        {text}
      </button>
    </th>
  );
  const search = new URLSearchParams({ ...(table.test ? { test: table.test } : {}), metric: table.metric.id });
  return (
    <table className="list">
      <caption className="unseen">{t.list}</caption>
      <thead>
        <tr>
          {head('name', t.head.person)}
          {head('value', t.head.value, true)}
          {head('z', t.head.z, true)}
          {head('change', t.head.change(t.references[table.against]))}
          {head('last', t.head.last)}
        </tr>
      </thead>
      <tbody>
        {shown.map((row) => (
          <tr key={row.person.id}>
            <th scope="row">
              <Link to={`/${lab}/athletes/${row.person.id}?${search}`} className="row-link">
                {row.person.name}
              </Link>{' '}
              <span className="small soft code">{row.person.code}</span>
            </th>
            <td className="right peak number">
              {row.value === undefined ? '' : valueText(row.value.value, table.metric.unit)}
            </td>
            <td className="right number" data-label={row.z === undefined ? undefined : 'z'}>
              {row.z === undefined ? (
                ''
              ) : (
                <span title={`${signedText(row.z.low, 1)} to ${signedText(row.z.high, 1)}`}>
                  {signedText(row.z.value, 1)}
                </span>
              )}
              {row.percentile !== undefined && (
                <span className="small soft"> {t.percentile(numberText(row.percentile, 0))}</span>
              )}
            </td>
            <td className="test">
              <ChangeText row={row} table={table} />
            </td>
            <td className="when soft">
              {row.last === undefined ? t.never : whenText(row.last, false)}
              {row.due !== undefined && (
                <span className="small squad-due"> {t.due(whenText(`${row.due}T12:00:00.000Z`, false))}</span>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function ChangeText({ row: { change, value }, table }: { row: SquadTableRow; table: SquadTable }) {
  if (change === undefined) return <span className="soft">{value === undefined ? '' : t.noChange}</span>;
  const size =
    change.percent === undefined ? differenceText(change.difference, table.metric.unit) : percentText(change.percent);
  return (
    <>
      <span className="number">{size}</span>{' '}
      <span className="follow-said" data-word={change.word}>
        {wordText(change.word, table)}
      </span>
      {change.unlike.length > 0 && <span className="small soft"> ({t.table.differs(change.unlike)})</span>}
    </>
  );
}
