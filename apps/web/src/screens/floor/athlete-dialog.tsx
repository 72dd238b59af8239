import type { Day, DayEntry, LabId, LiveVerdict } from '@sthene/contract';
import { useState } from 'react';
import { useChangeOwner } from '../../data/days.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { useSay } from '../../parts/status.tsx';
import { liveWords as words } from '../../words/live.ts';
import { testTitle } from '../trial/test-title.ts';
import { floorSigner } from './use-entry-acts.ts';
import './athlete.css';

interface AthleteDialogProps {
  readonly lab: LabId;
  readonly day: Day;
  readonly rig: string;
  /** Entry on the rig now. */
  readonly here: string | undefined;
  /** The effort that was judged last in this turn. */
  readonly verdict: LiveVerdict | undefined;
  /** False in a count or a pull, and without the controls. */
  readonly mayCall: boolean;
  readonly onCall: (entry: string) => void;
  readonly onClose: () => void;
}

/** Who goes on the rig, out of turn or because somebody else stands there; the effort just judged can be given to them. */
export function AthleteDialog(props: AthleteDialogProps) {
  const { lab, day, rig, here, verdict, mayCall, onCall, onClose } = props;
  const { athlete: say } = words;
  const [theirs, setTheirs] = useState(false);
  const give = useChangeOwner(lab, day.id);
  const tell = useSay();
  const choose = ({ id, person }: DayEntry) => {
    if (theirs && verdict !== undefined)
      give.mutate(
        { trial: verdict.trial, person: person.id, reason: say.reason, by: floorSigner() },
        { onSuccess: () => tell(say.given(person.name)), onError: () => tell(say.notGiven) },
      );
    if (mayCall && id !== here) onCall(id);
    onClose();
  };
  return (
    <Dialog title={say.title} onClose={onClose}>
      <p className="soft">{mayCall ? say.help : say.notNow}</p>
      {verdict !== undefined && (
        <label className="menu-choice">
          <input type="checkbox" checked={theirs} onChange={(event) => setTheirs(event.target.checked)} />
          {say.theirs(verdict.person.name)}
        </label>
      )}
      <ul className="athlete-list">
        {day.entries.map((entry) => {
          const elsewhere = entry.state === 'on-rig' && entry.rig !== rig;
          const blocked = entry.allowed === 'nothing' || entry.state === 'left' || elsewhere;
          const is = entry.id === here ? say.here : elsewhere ? say.elsewhere : words.entry[entry.state];
          return (
            <li key={entry.id}>
              <button
                type="button"
                className="button big"
                disabled={entry.id === here || (!theirs && (blocked || !mayCall))}
                onClick={() => choose(entry)}
              >
                <b>{entry.person.name}</b>
                <span className="small">
                  {day.tests.length > 1 && `${testTitle(entry.test)}, `}
                  {is}
                </span>
              </button>
            </li>
          );
        })}
      </ul>
      <div className="dialog-acts">
        <button type="button" className="button big" onClick={onClose}>
          {say.cancel}
        </button>
      </div>
    </Dialog>
  );
}
