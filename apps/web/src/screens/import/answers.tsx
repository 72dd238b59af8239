import { importWords } from '../../words/importing.ts';
import type { Answer } from './worker/messages.ts';

/** What each format says about a file, and why. */
export function Answers({ answers, open = false }: { answers: readonly Answer[]; open?: boolean }) {
  const t = importWords.file;
  return (
    <details className="answers small" open={open}>
      <summary>{t.why}</summary>
      <ul>
        {answers.map(({ format, title, match, reason, at }) => (
          <li key={format}>
            <b>{title}</b>
            <span className="answer-match" data-match={match}>
              {t.match[match]}
            </span>
            <span>
              {reason}
              {match !== 'yes' && at?.row !== undefined && <span className="soft"> ({t.atRow(at.row)})</span>}
              {match !== 'yes' && at?.byte !== undefined && <span className="soft"> ({t.atByte(at.byte)})</span>}
            </span>
          </li>
        ))}
      </ul>
    </details>
  );
}
