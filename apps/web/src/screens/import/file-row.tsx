import { Link } from 'react-router';
import { numberText } from '../../number/format.ts';
import { Icon, type IconName } from '../../parts/icon.tsx';
import { importWords } from '../../words/importing.ts';
import { words } from '../../words/index.ts';
import { receivedWords } from '../../words/received.ts';
import { Answers } from './answers.tsx';
import { bytesText } from './bytes-text.ts';
import { type Item, isResults, type Standing, standingOf } from './state.ts';
import { UnknownFile } from './unknown-file.tsx';
import type { Import } from './use-import.ts';

const icons: Readonly<Record<Standing, IconName>> = {
  looking: 'not-judged',
  sending: 'out',
  failed: 'fail',
  unusable: 'fail',
  question: 'warn',
  known: 'layers',
  ready: 'pass',
  results: 'layers',
};

/** One chosen file: what it is, how it stands, and what to do about it. */
export function FileRow({ item, imported }: { item: Item; imported: Import }) {
  const t = importWords.file;
  const standing = standingOf(item);
  const { look, file } = item;
  const labels: Readonly<Record<Standing, string>> = { ...t, results: receivedWords.file.standing };
  return (
    <li className="file-row" data-standing={standing}>
      <div className="file-head">
        <span className="file-standing">
          <Icon name={icons[standing]} size={18} />
          {labels[standing]}
        </span>
        <span className="file-name">{file.name}</span>
        <span className="small soft number">{bytesText(file.size)}</span>
        <button
          type="button"
          className="button quiet"
          aria-label={t.removeIt(file.name)}
          onClick={() => imported.remove(item)}
        >
          {t.remove}
        </button>
      </div>
      {look && look.format !== '' && !isResults(look) && (
        <p className="small soft">
          {look.formatTitle}
          {look.recording && (
            <>
              {' \u00b7 '}
              {t.about(
                numberText(look.recording.sampleRate, Number.isInteger(look.recording.sampleRate) ? 0 : 1),
                numberText(look.recording.sampleCount / look.recording.sampleRate, 1),
              )}
              {look.recording.labels.length > 1 && ` \u00b7 ${t.recordings(look.recording.labels.length)}`}
            </>
          )}
        </p>
      )}
      {item.lookFailed && <Trouble detail={t.notRead} next={t.notReadNext} code="file-not-readable" />}
      {look?.results && <ResultsOffer item={item} lab={imported.lab} />}
      {look?.format === '' && !isResults(look) && <UnknownFile file={file} look={look} />}
      {look?.format !== '' && look?.error && !isResults(look) && (
        <Trouble detail={look.error.message} next={look.error.next} code={look.error.code} />
      )}
      {item.sendProblem && (
        <>
          <Trouble detail={item.sendProblem.detail} next={item.sendProblem.next} code={item.sendProblem.code} />
          <button type="button" className="button" onClick={() => imported.send(item)}>
            {t.again}
          </button>
        </>
      )}
      {standing === 'known' && <Known item={item} imported={imported} />}
      {look && look.format !== '' && !isResults(look) && <Answers answers={look.answers} />}
    </li>
  );
}

function Trouble({ detail, next, code }: { detail: string; next: string; code: string }) {
  return (
    <div className="file-trouble">
      <p>{detail}</p>
      {next !== '' && <p>{next}</p>}
      <p className="small soft">
        {words.problem.code} <span className="number">{code}</span>
      </p>
    </div>
  );
}

/** The same bytes are in the lab already: say where, and let a person choose. */
function Known({ item, imported }: { item: Item; imported: Import }) {
  const t = importWords.file;
  return (
    <fieldset className="known">
      <legend>{t.duplicates}</legend>
      <ul>
        {item.upload?.duplicates.slice(0, 3).map((one) => (
          <li key={one.trial}>
            <Link to={`/${imported.lab}/trials/${one.trial}`}>{one.words}</Link>
          </li>
        ))}
      </ul>
      {(['skip', 'keep-both'] as const).map((choice) => (
        <label key={choice} className="choice-line">
          <input
            type="radio"
            name={`known-${item.key}`}
            checked={item.onDuplicate === choice}
            onChange={() => imported.act({ do: 'item', key: item.key, part: { onDuplicate: choice } })}
          />
          {choice === 'skip' ? t.skip : t.keepBoth}
        </label>
      ))}
    </fieldset>
  );
}

/** The way for a table of results: it has no curve to be cut, weighed and judged. */
function ResultsOffer({ item, lab }: { item: Item; lab: string }) {
  const t = receivedWords.file;
  const { look, upload } = item;
  return (
    <div className="results-offer">
      <p>{look?.results === 'yes' && !look.recording ? t.looks : look?.recording ? t.both : t.perhaps}</p>
      {upload && (
        <Link
          className={look && isResults(look) ? 'button main' : 'button'}
          to={`/${lab}/import/results/${upload.id}`}
          state={{ name: item.file.name }}
        >
          {t.go}
        </Link>
      )}
    </div>
  );
}
