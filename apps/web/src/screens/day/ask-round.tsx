import type { Day, DayEntry } from '@sthene/contract';
import { useState } from 'react';
import type { useDayAct } from '../../data/days.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { ReadinessPart } from './readiness-part.tsx';

/** Who has not been asked the readiness questions yet and could still make an effort, in the running order. */
export const unasked = (day: Pick<Day, 'entries'>): DayEntry[] =>
  [...day.entries]
    .sort((a, b) => a.position - b.position)
    .filter(({ readiness, state, remaining }) => readiness === undefined && state !== 'left' && remaining.length > 0)
    // In a battery an answer holds for all tests of the day.
    .filter(({ battery, person }, i, all) => !battery || all.findIndex((one) => one.person.id === person.id) === i);

interface RoundProps {
  readonly day: Day;
  readonly act: ReturnType<typeof useDayAct>;
  onClose(): void;
}

/** The readiness questions for one athlete after the other, until everybody was asked or it is closed. */
export function AskRound({ day, act, onClose }: RoundProps) {
  const t = dayWords.ready;
  const by = useSigned();
  const say = useSay();
  const [passed, setPassed] = useState<readonly string[]>([]);
  const left = unasked(day).filter(({ id }) => !passed.includes(id));
  const [now] = left;
  return (
    <Dialog title={now ? t.roundOf(now.person.name) : t.roundDone} onClose={onClose}>
      <div className="dialog-form ask-round">
        {now ? (
          <>
            <p className="small soft">{t.roundLeft(left.length)}</p>
            {act.isError && <ProblemCard error={act.error} />}
            <ReadinessPart
              key={now.id}
              entry={now}
              plain
              onKeep={(readiness) => {
                if (!by) return say(dayWords.sign.needed);
                act.mutate({ kind: 'change', entry: now.id, part: { readiness }, by });
              }}
            />
            <div className="dialog-acts">
              <button type="button" className="button" onClick={() => setPassed([...passed, now.id])}>
                {t.later(now.person.name)}
              </button>
              <button type="button" className="button" onClick={onClose}>
                {t.stopRound}
              </button>
            </div>
          </>
        ) : (
          <>
            <p>{passed.length > 0 ? t.roundLater(passed.length) : t.roundAll}</p>
            <div className="dialog-acts">
              <button type="button" className="button main" onClick={onClose}>
                {t.roundClose}
              </button>
            </div>
          </>
        )}
      </div>
    </Dialog>
  );
}
