import type { ProtocolVersionView } from '@sthene/contract';
import { type ProtocolDocument, protocolDifferences } from '@sthene/core';
import { useId, useState } from 'react';
import { protocolWords } from '../../words/protocols.ts';

const t = protocolWords.versions;

/** What differs between the version shown and another one, in words. */
export function Compare({ versions, shown }: { versions: readonly ProtocolVersionView[]; shown: ProtocolVersionView }) {
  const id = useId();
  const others = versions.filter((one) => one !== shown);
  const before = others.find(({ document }) => document.version === shown.document.version - 1) ?? others[0];
  const [chosen, setChosen] = useState('');
  const other = others.find(({ sha256 }) => sha256 === chosen) ?? before;
  if (other === undefined) return null;
  const [older, newer] = other.document.version < shown.document.version ? [other, shown] : [shown, other];
  const differences = protocolDifferences(older.document as ProtocolDocument, newer.document as ProtocolDocument);
  return (
    <section className="panel" aria-label={t.compare}>
      <div className="field compare-with">
        <label htmlFor={id}>{t.compare}</label>
        <select id={id} value={other.sha256} onChange={(event) => setChosen(event.target.value)}>
          {others.map(({ sha256, document }) => (
            <option key={sha256} value={sha256}>
              {t.was(document.version)}
            </option>
          ))}
        </select>
      </div>
      {differences.length === 0 ? (
        <p className="soft">{t.same}</p>
      ) : (
        <div className="table-scroll">
          <table className="difference-list">
            <caption className="unseen">{t.table(older.document.version, newer.document.version)}</caption>
            <thead>
              <tr>
                <th scope="col">{t.place}</th>
                <th scope="col">{t.was(older.document.version)}</th>
                <th scope="col">{t.was(newer.document.version)}</th>
              </tr>
            </thead>
            <tbody>
              {differences.map((one) => (
                <tr key={one.at}>
                  <th scope="row">{one.title}</th>
                  <td>{one.before ?? <span className="soft">{t.nothing}</span>}</td>
                  <td>{one.after ?? <span className="soft">{t.nothing}</span>}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}
