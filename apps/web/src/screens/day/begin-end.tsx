import type { Day, LabId } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';
import { useQuery } from '@tanstack/react-query';
import { useNavigate } from 'react-router';
import type { useDayAct } from '../../data/days.ts';
import { rigsQuery } from '../../data/rigs.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { unasked } from './ask-round.tsx';
import { beforeOpening, peopleOf, unfinished } from './standing.ts';

interface AskProps {
  readonly day: Day;
  readonly act: ReturnType<typeof useDayAct>;
  onClose(): void;
}

/** Cautions of a day: those the station sent, else those of its tests, each once. */
export const cautionsOf = (day: Day): readonly string[] =>
  day.cautions.length > 0
    ? day.cautions
    : [...new Set(day.tests.flatMap(({ test }) => protocolRegistry.get(test)?.cautions ?? []))];

/** Asks before a day begins, with the cautions and what is not right yet; the safe answer has the focus then. */
export function OpenDialog({ lab, day, act, onClose }: AskProps & { lab: LabId }) {
  const t = dayWords.open;
  const rigs = useQuery(rigsQuery(lab));
  const trouble = rigs.data ? beforeOpening(day, rigs.data) : [];
  const asked = unasked(day).length;
  const navigate = useNavigate();
  const [only] = day.rigs;
  return (
    <Dialog title={t.title} onClose={onClose}>
      <div className="dialog-form">
        {trouble.length === 0 ? (
          <p>{t.fine}</p>
        ) : (
          <div className="band">
            <p>{t.look}</p>
            <ul className="dots">
              {trouble.map((one) => (
                <li key={one}>{one}</li>
              ))}
            </ul>
          </div>
        )}
        <h3>{dayWords.cautions}</h3>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard */}
        <section className="caution-box" tabIndex={0} aria-label={dayWords.cautions}>
          <ul className="dots small">
            {cautionsOf(day).map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </section>
        {asked > 0 && <p>{t.unasked(asked)}</p>}
        {act.isError && <ProblemCard error={act.error} />}
        <Answers
          kind="open"
          act={act}
          yes={trouble.length === 0 ? t.act : t.anyway}
          no={t.notYet}
          careful={trouble.length > 0}
          onClose={onClose}
          onDone={() => {
            onClose();
            // One rig: the next thing to do stands on its Floor.
            if (only !== undefined && day.rigs.length === 1) void navigate(`/${lab}/floor/${only}`);
          }}
        />
      </div>
    </Dialog>
  );
}

/** Asks before a day ends, naming who still has efforts left. */
export function CloseDialog({ day, act, onClose }: AskProps) {
  const t = dayWords.close;
  const left = unfinished(day);
  const names = [...new Set(left.map(({ person }) => person.name))];
  return (
    <Dialog title={t.title} onClose={onClose}>
      <div className="dialog-form">
        <p>{t.fine}</p>
        {left.length > 0 && (
          <div className="band">
            <p>{t.unfinished(peopleOf(left))}</p>
            <p>{names.join(', ')}</p>
          </div>
        )}
        {act.isError && <ProblemCard error={act.error} />}
        <Answers kind="close" act={act} yes={t.act} no={t.keep} careful={left.length > 0} onClose={onClose} />
      </div>
    </Dialog>
  );
}

interface AnswersProps {
  readonly kind: 'open' | 'close';
  readonly act: ReturnType<typeof useDayAct>;
  readonly yes: string;
  readonly no: string;
  readonly careful: boolean;
  onClose(): void;
  /** After it was done; closes when absent. */
  onDone?(): void;
}

function Answers({ kind, act, yes, no, careful, onClose, onDone = onClose }: AnswersProps) {
  const by = useSigned();
  const say = useSay();
  const go = () => {
    if (by) act.mutate({ kind, by }, { onSuccess: onDone });
    else {
      onClose();
      say(dayWords.sign.needed);
    }
  };
  const confirm = (
    <button
      key="yes"
      type="button"
      className={careful ? 'button' : 'button main'}
      disabled={act.isPending}
      onClick={go}
    >
      {yes}
    </button>
  );
  // The attribute, so that the dialog itself gives the safe answer the focus when it opens.
  const refuse = (
    <button
      key="no"
      type="button"
      className={careful ? 'button main' : 'button'}
      ref={(button) => void button?.toggleAttribute('autofocus', careful)}
      onClick={onClose}
    >
      {no}
    </button>
  );
  return <div className="dialog-acts">{careful ? [refuse, confirm] : [confirm, refuse]}</div>;
}
