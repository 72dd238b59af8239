import type { AthleteView, LabId, ReceivedLine } from '@sthene/contract';
import { Link } from 'react-router';
import { unitText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { receivedWords } from '../../words/received.ts';
import { valueText } from '../athletes/values.ts';

/** Values of others, each method a line with a letter, and what they may not be used for. */
export function ReceivedPart({ lab, view }: { lab: LabId; view: AthleteView }) {
  const t = receivedWords.lines;
  if (view.received.length === 0) return null;
  return (
    <section className="follow-received" aria-labelledby="follow-received">
      <h2 id="follow-received">{t.title}</h2>
      <p className="small soft follow-received-text">{t.text}</p>
      {view.received.map((line) => (
        <Line key={line.letter} lab={lab} view={view} line={line} />
      ))}
    </section>
  );
}

function Line({ lab, view, line }: { lab: LabId; view: AthleteView; line: ReceivedLine }) {
  const t = receivedWords.lines;
  const name = `${receivedWords.label(line.label)}, ${t.of[line.of]}`;
  return (
    <section className="follow-received-line" aria-label={`${t.line(line.letter)}: ${name}`}>
      <h3>
        <i className="follow-received-key" aria-hidden="true">
          {line.letter}
        </i>
        {name}
      </h3>
      {!line.known && <p className="small">{view.metric.dependsOnOnset ? t.unknownOnset : t.unknownPlates}</p>}
      {line.unit !== view.metric.unit && <p className="small">{t.unit(unitText(line.unit))}</p>}
      <table className="list follow-received-list">
        <thead>
          <tr>
            <th scope="col">{t.head.when}</th>
            <th scope="col" className="right">
              {t.head.value}
            </th>
            <th scope="col" className="right">
              {t.head.n}
            </th>
            <th scope="col">{t.head.file}</th>
          </tr>
        </thead>
        <tbody>
          {line.points.toReversed().map((point) => (
            <tr key={point.session}>
              <th scope="row">
                <Link className="row-link" to={`/${lab}/sessions/${point.session}`}>
                  {whenText(point.at, false)}
                </Link>
              </th>
              <td className="right number peak">{valueText(point.value, line.unit)}</td>
              <td className="right number" data-label={t.head.n}>
                {line.of === 'mean' ? point.n : ''}
              </td>
              <td className="soft follow-note">{point.fileName}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
