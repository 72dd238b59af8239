import type { ReceivedValueRow, SessionView } from '@sthene/contract';
import { metricFacts } from '@sthene/core';
import { quantityText, unitText } from '../../number/format.ts';
import { receivedWords } from '../../words/received.ts';

/** Where a session of results only comes from, and every value of it as it was received. */
export function ReceivedValues({ session }: { session: SessionView }) {
  const t = receivedWords.session;
  const { received, values } = session;
  if (!received) return null;
  return (
    <>
      <section className="session-received">
        <h2>{receivedWords.markLong}</h2>
        <p>
          {t.from(received.fileName)} {'\u00b7'} {t.method}: <b>{receivedWords.label(received.methodLabel)}</b>
          {!received.timeKnown && <span className="soft"> {`\u00b7 ${t.day}`}</span>}
        </p>
        <p className="small soft">{t.apart}</p>
      </section>
      {values.length === 0 ? (
        <p className="soft">{t.none}</p>
      ) : (
        <section aria-labelledby="session-values">
          <h2 id="session-values">{t.values}</h2>
          <table className="list received-values">
            <thead>
              <tr>
                <th scope="col">{t.head.metric}</th>
                <th scope="col">{t.head.of}</th>
                <th scope="col" className="right">
                  {t.head.value}
                </th>
                <th scope="col" className="right">
                  {t.head.given}
                </th>
                <th scope="col" className="right">
                  {t.head.row}
                </th>
              </tr>
            </thead>
            <tbody>
              {values.map((one) => (
                <tr key={one.id}>
                  <th scope="row">{metricFacts.get(one.metric)?.title ?? one.metric}</th>
                  <td data-label={t.head.of}>{one.position === undefined ? t.of[one.of] : t.trialN(one.position)}</td>
                  <td className="right number peak">
                    <Value one={one} />
                  </td>
                  <td className="right number soft" data-label={t.head.given}>
                    {one.given.value} {unitText(one.given.unit)}
                  </td>
                  <td className="right number soft" data-label={t.head.row}>
                    {one.row}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
    </>
  );
}

function Value({ one: { value, unit, reason } }: { one: ReceivedValueRow }) {
  return value === undefined ? (
    <span className="soft">{reason}</span>
  ) : (
    quantityText(value, unit, { sampleRate: 1000, noise: 1 })
  );
}
