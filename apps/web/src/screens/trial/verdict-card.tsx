import { routes } from '@sthene/contract';
import { Elsewhere } from '../../parts/elsewhere.tsx';
import { Icon } from '../../parts/icon.tsx';
import { reasonWords, words } from '../../words/index.ts';
import { checkRows, findingWords } from './findings.ts';
import { writerOf } from './numbers.ts';
import { belowHighest } from './siblings.ts';
import { useShared } from './trial-context.ts';
import './verdict.css';

const shownReasons = 4;

/** Counts, look again or repeat, with the reasons worst first, and what a person may do about it. */
export function VerdictCard({ onShowCheck }: { onShowCheck: (id: string) => void }) {
  const { view, ask, decides } = useShared();
  const { result, state } = view;
  const t = words.verdictCard;
  const found = checkRows(result).filter((row) => row.result.status === 'fail' || row.result.status === 'warn');
  const count = (status: 'fail' | 'warn') => found.filter((row) => row.result.status === status).length;
  const last = [...view.decisions]
    .reverse()
    .find((one) => one.kind === (state === 'excluded' ? 'exclude' : 'overrule-counts'));
  const look = state === 'overruled' ? 'counts' : state;
  const title = state === 'excluded' ? t.excluded : state === 'overruled' ? t.overruled : words.verdict[state];
  const below = state === 'counts' || state === 'overruled' ? belowHighest(view) : undefined;
  const byPerson = state === 'excluded' || state === 'overruled';
  return (
    <section className="verdict" data-state={look} aria-label={title}>
      <div className="verdict-face">
        <Icon name={look} size={38} />
        <div>
          <h2>{title}</h2>
          <p className="small">
            {byPerson
              ? `${last ? `${last.by}: ${last.reason}. ` : ''}${t.automatic(words.verdict[result.verdict])}`
              : lead(state, result.reason, count('fail'), count('warn'))}
          </p>
          {below !== undefined && (
            <p className="small">{below === 0 ? t.highest : t.below(writerOf(result)(below, 'N'))}</p>
          )}
        </div>
      </div>
      {(found.length > 0 || result.reason || !result.onset.ok) && (
        <ul className="verdict-reasons">
          {result.reason && <li>{sentence(reasonWords(result.reason))}</li>}
          {!result.reason && !result.onset.ok && (
            <li>{sentence(words.curve.summaryNoOnset(reasonWords(result.onset.reason)).replace(/\.$/, ''))}</li>
          )}
          {found.slice(0, shownReasons).map((row) => (
            <li key={row.id}>
              <button type="button" onClick={() => onShowCheck(row.id)} data-status={row.result.status}>
                <Icon name={row.result.status === 'fail' ? 'fail' : 'warn'} size={15} />
                <span>
                  {findingWords(row, result)}
                  {row.ratesOnly && (
                    <abbr className="rates-only" title={t.ratesOnlyLong}>
                      {t.ratesOnly}
                    </abbr>
                  )}
                </span>
              </button>
            </li>
          ))}
          {found.length > shownReasons && <li className="soft small">{t.more(found.length - shownReasons)}</li>}
        </ul>
      )}
      <Elsewhere unless={routes.decide} about="trial" />
      {decides && (
        <div className="verdict-acts">
          {state === 'excluded' && <Act kind="restore" label={words.trial.restore} ask={ask} />}
          {state === 'overruled' && <Act kind="restore" label={words.trial.withdraw} ask={ask} />}
          {state !== 'excluded' && <Act kind="exclude" label={words.trial.exclude} ask={ask} />}
          {(state === 'look-again' || state === 'repeat') && (
            <Act kind="overrule-counts" label={words.trial.overrule} ask={ask} />
          )}
          <Act kind="note" label={words.trial.note} ask={ask} />
        </div>
      )}
    </section>
  );
}

type Shown = 'counts' | 'look-again' | 'repeat' | 'excluded' | 'overruled';

function lead(state: Shown, reason: string | undefined, failed: number, warned: number): string {
  const t = words.verdictCard;
  if (reason) return t.noEffort;
  if (state === 'counts') return t.pass;
  if (failed > 0) return t.repeat(failed);
  return warned > 0 ? t.lookAgain(warned) : t.undecided;
}

const sentence = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

type Asked = 'restore' | 'exclude' | 'overrule-counts' | 'note';

function Act({ kind, label, ask }: { kind: Asked; label: string; ask: (kind: Asked) => void }) {
  return (
    <button type="button" className="button" onClick={() => ask(kind)}>
      {label}
    </button>
  );
}
