import type { Day, LabId } from '@sthene/contract';
import { useNavigate } from 'react-router';
import { inEffort, type LiveState, type RigLive } from '../../live/index.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { liveWords as words } from '../../words/live.ts';
import { setupFieldsOf } from '../day/protocol-of.ts';
import { AthleteDialog } from './athlete-dialog.tsx';
import { KeysDialog } from './keys-dialog.tsx';
import { NoteDialog } from './note-dialog.tsx';
import { SetupDialog } from './setup-dialog.tsx';
import { TextDialog } from './text-dialog.tsx';
import type { FloorModel } from './use-floor.ts';

interface FloorDialogsProps {
  readonly lab: LabId;
  readonly rig: RigLive;
  readonly id: string;
  readonly state: LiveState;
  readonly holds: boolean;
  readonly model: FloorModel;
}

/** Where one goes from the Floor: the day that runs, else the list of days. */
export const dayAddress = (lab: LabId, day: Day | undefined): string =>
  day === undefined ? `/${lab}/day` : `/${lab}/day/${day.id}`;

/** Whatever lies over the Floor; the page keys of a presenter stop a count or a pull under each of them. */
export function FloorDialogs({ lab, rig, id, state, holds, model }: FloorDialogsProps) {
  const { dialog, setDialog, acts, entry } = model;
  const navigate = useNavigate();
  const close = () => setDialog(undefined);
  const { pain, judge, leaving } = words;
  const phase = rig.floor?.phase;
  switch (dialog?.kind) {
    case undefined:
      return null;
    case 'keys':
      return <KeysDialog onClose={close} />;
    case 'note':
      return (
        <NoteDialog
          who={entry?.person.name ?? ''}
          before={entry?.notes ?? ''}
          quick={rig.floor?.jump === undefined ? words.note.quick : words.note.quickJump}
          onKeep={acts.keepNote}
          onClose={close}
        />
      );
    case 'setup':
      return entry === undefined ? null : (
        <SetupDialog
          entry={entry}
          fields={setupFieldsOf(state.day ?? {}, entry.test)}
          onKeep={acts.keepSetup}
          onClose={close}
        />
      );
    case 'athlete':
      return state.day === undefined ? null : (
        <AthleteDialog
          lab={lab}
          day={state.day}
          rig={id}
          here={rig.floor?.turn?.entry}
          verdict={phase === 'verdict' || phase === 'rest' ? rig.verdict : undefined}
          mayCall={holds && phase !== 'cue' && !inEffort(phase)}
          onCall={(chosen) => acts.send('begin', { entry: chosen })}
          onClose={close}
        />
      );
    case 'leave':
      return (
        <Dialog title={leaving.title} onClose={close}>
          <p>{leaving.text}</p>
          <div className="dialog-acts">
            <button type="button" className="button main big" onClick={close}>
              {leaving.stay}
            </button>
            <button type="button" className="button big" onClick={() => navigate(dayAddress(lab, state.day))}>
              {leaving.leave}
            </button>
          </div>
        </Dialog>
      );
    case 'pain':
      return (
        <TextDialog
          title={pain.title}
          text={dialog.stopped ? `${pain.stopped} ${pain.text}` : pain.text}
          label={pain.note}
          yes={pain.yes}
          no={pain.no}
          onYes={(text) => {
            if (acts.send('pain', text === '' ? {} : { note: text })) close();
          }}
          onClose={close}
        />
      );
    case 'judge':
      return (
        <TextDialog
          title={judge.title[dialog.decision]}
          label={judge.reason}
          yes={judge.yes}
          no={judge.no}
          needed={judge.needed}
          onYes={(text) => {
            if (acts.send('judge', { decision: dialog.decision, note: text, trial: dialog.trial })) close();
          }}
          onClose={close}
        />
      );
  }
}
