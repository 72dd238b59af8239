import { type Method, methodDifferences, methodSentences } from '@sthene/core';
import { methodWords as t } from '../../words/methods.ts';

/** What a method does, in sentences. */
export function Sentences({ method }: { method: Method }) {
  return (
    <ul className="method-sentences">
      {methodSentences(method).map((one) => (
        <li key={one}>{one}</li>
      ))}
    </ul>
  );
}

/** Where two methods differ, place by place. */
export function DifferenceTable({
  before,
  after,
  names,
}: {
  before: Method;
  after: Method;
  names: readonly [string, string];
}) {
  const differences = methodDifferences(before, after);
  if (differences.length === 0) return <p className="soft">{t.differences.same}</p>;
  return (
    <div className="table-scroll">
      <table className="method-differences">
        <thead>
          <tr>
            <th scope="col">{t.differences.place}</th>
            <th scope="col">{names[0]}</th>
            <th scope="col">{names[1]}</th>
          </tr>
        </thead>
        <tbody>
          {differences.map((one) => (
            <tr key={one.at}>
              <th scope="row">{one.title}</th>
              <td>{one.before ?? <span className="soft">{t.differences.nothing}</span>}</td>
              <td>{one.after ?? <span className="soft">{t.differences.nothing}</span>}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
