import {
  applyProtocol,
  type ProtocolDocument,
  protocolRules,
  type SetupField,
  secondsText,
  valueText,
} from '@sthene/core';
import { protocolWords } from '../../words/protocols.ts';
import { testTitle } from '../trial/test-title.ts';
import './sheet.css';

const t = protocolWords.sheet;
const athletes = ['1', '2', '3', '4'] as const;

/** The protocol as one page of paper, A4 or Letter, legible in black and white. Only printed. */
export function ProtocolSheet({ document, sha256 }: { document: ProtocolDocument; sha256: string }) {
  const { test } = applyProtocol(document);
  // A full sheet is set a little tighter, so that it stays one page.
  const lines = document.setupFields.length + 2 * document.localRules.length + document.warmUp.steps.length;
  return (
    <div className="protocol-sheet" aria-hidden="true" data-full={lines > 24 ? 'very' : lines > 17 ? 'yes' : 'no'}>
      <header>
        <p className="sheet-name">
          <b>{document.name}</b>, {protocolWords.version(document.version).toLowerCase()}
        </p>
        <p>{testTitle(document.test.id)}</p>
        <p className="sheet-blanks">
          {[t.date, t.place, t.operator, t.spotter].map((one) => (
            <span key={one}>{one}</span>
          ))}
        </p>
      </header>
      <div className="sheet-two">
        <section>
          <h2>{t.first}</h2>
          <ul className="sheet-cautions">
            {test.cautions.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </section>
        <Steps document={document} />
      </div>
      <SetupTable fields={document.setupFields} efforts={document.maximal.maximum} />
      <p className="sheet-foot">{t.foot(document.name, document.version, sha256.slice(0, 16))}</p>
    </div>
  );
}

function Steps({ document }: { document: ProtocolDocument }) {
  const { warmUp, maximal, rest, pull, cue } = document;
  return (
    <section>
      <h2>{t.how}</h2>
      <ol className="sheet-steps">
        {warmUp.steps.map((one) => (
          <li key={one}>{one}</li>
        ))}
        {warmUp.efforts.map(({ share, band }, i) => (
          <li key={i}>{t.submaximal(valueText(share, 'share'), valueText(band, 'share'), secondsText(warmUp.rest))}</li>
        ))}
        {maximal.planned > 0 && (
          <li>
            {t.maximal(maximal.planned, secondsText(pull.seconds), secondsText(rest.minimum))}.{' '}
            {t.limits(maximal.minimum, maximal.maximum)}
          </li>
        )}
      </ol>
      <div className="sheet-cue">
        <p>
          {t.say}. {t.count(cue.count)}
        </p>
        <p>
          <b>{cue.words}</b>
        </p>
        <p>{t.stop}</p>
      </div>
      <ul className="sheet-cautions">
        {protocolRules(document).map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
    </section>
  );
}

function SetupTable({ fields, efforts }: { fields: readonly SetupField[]; efforts: number }) {
  const boxes = '\u2610 '.repeat(Math.max(1, efforts)).trim();
  return (
    <table>
      <thead>
        <tr>
          <th>{t.name}</th>
          {athletes.map((one) => (
            <th key={one} />
          ))}
        </tr>
      </thead>
      <tbody>
        <tr>
          <td>{t.weight} (N)</td>
          {athletes.map((one) => (
            <td key={one} />
          ))}
        </tr>
        {fields.map((field) => (
          <tr key={field.id}>
            <td>
              {field.title}
              {field.unit === undefined ? '' : ` (${field.unit === 'deg' ? '°' : field.unit})`}
              {field.required ? ' *' : ''}
            </td>
            {athletes.map((one) => (
              <td key={one} className="sheet-choice">
                {field.kind === 'yes-no' ? t.yesNo : field.kind === 'choice' ? field.choices?.join(' / ') : ''}
              </td>
            ))}
          </tr>
        ))}
        <tr>
          <td>{t.efforts}</td>
          {athletes.map((one) => (
            <td key={one}>{boxes}</td>
          ))}
        </tr>
      </tbody>
    </table>
  );
}
