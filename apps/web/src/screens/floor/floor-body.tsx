import type { LabId } from '@sthene/contract';
import { useMemo } from 'react';
import { Link } from 'react-router';
import type { LiveState, LiveStore, RigLive } from '../../live/index.ts';
import { liveWords as words } from '../../words/live.ts';
import { ActBar } from './act-bar.tsx';
import { Cautions } from './cautions.tsx';
import { BalanceLine, CurvePanel } from './curve-panel.tsx';
import { FloorKeys, TextDialog } from './floor-dialogs.tsx';
import { Notices } from './notices.tsx';
import { balanceOf, forceView } from './numbers.ts';
import { PhaseList } from './phase-list.tsx';
import { QuestionCard } from './question-card.tsx';
import { RecordingLight } from './recording-light.tsx';
import { RunningOrder } from './running-order.tsx';
import { ScreenSettings, useSwitch } from './screen-settings.tsx';
import { useCues } from './use-cues.ts';
import { type FloorModel, useFloor } from './use-floor.ts';
import { VerdictPanel } from './verdict-panel.tsx';

export interface FloorBodyProps {
  readonly lab: LabId;
  readonly id: string;
  readonly rig: RigLive;
  readonly state: LiveState;
  readonly store: LiveStore;
}

/** Running order above, curve and phases in the middle, buttons below: the same places in every phase. */
export function FloorBody({ lab, id, rig, state, store }: FloorBodyProps) {
  const model = useFloor(lab, id, rig, state, store);
  const cues = useCues(store, rig.cue);
  const [showWeight] = useSwitch('show-weight', false);
  const { floor, verdict, now, view: rigView } = rig;
  const { mode, less } = forceView(floor, showWeight);
  const view = useMemo(() => ({ mode, less }), [mode, less]);
  const lost = state.link !== 'open';
  const judged = verdict !== undefined && (floor?.phase === 'verdict' || floor?.phase === 'rest');
  return (
    <div className="floor" data-lost={lost}>
      <header className="floor-top">
        <h1>
          <span className="unseen">{words.floor} </span>
          {words.rig(rigView?.letter ?? '')}
        </h1>
        <RunningOrder day={state.day} rig={id} />
        <ScreenSettings mayShowWeight={floor?.weighing !== undefined} />
        <Link className="button quiet" to={`/${lab}/sessions`}>
          {words.leave}
        </Link>
      </header>
      <Notices
        state={state}
        rig={id}
        unsent={model.unsent && words.unsent[model.unsent]}
        onRetry={() => store.link.retry()}
        onDismiss={model.acts.dismiss}
      />
      <main className="floor-middle" id="page">
        <section className="floor-paper" aria-label={words.curve.label}>
          <CurvePanel lab={lab} rig={rig} view={view} />
          <BalanceLine value={balanceOf(now?.left, now?.right)} />
          {model.question && (
            <QuestionCard
              key={model.question.id}
              question={model.question}
              mayAnswer={store.holdsControls}
              onAnswer={(choice) => model.question && store.answer(model.question.id, choice)}
              onTake={() => store.takeControls()}
            />
          )}
        </section>
        <aside className="floor-side" data-judged={judged}>
          <PhaseList rig={rig} view={view} restLeft={model.restLeft} />
          {judged && verdict !== undefined && (
            <VerdictPanel
              lab={lab}
              verdict={verdict}
              view={view}
              onJudge={(decision) => model.setDialog({ kind: 'judge', decision, trial: floor?.trial ?? verdict.trial })}
            />
          )}
          {!judged && <Cautions floor={floor} day={state.day} entry={model.entry} />}
          <RecordingLight rig={rig} lost={lost} />
        </aside>
      </main>
      <ActBar rig={rig} state={state} store={store} model={model} sounding={cues.sounding} />
      {cues.flash !== undefined && (
        <div className="cue-flash" data-sound={cues.flash.sound} aria-hidden="true">
          {cues.flash.sound in words.countWords
            ? words.countWords[cues.flash.sound as keyof typeof words.countWords]
            : cues.flash.words}
        </div>
      )}
      <p className="unseen" role="alert">
        {rig.cue?.words}
      </p>
      <Dialogs model={model} />
    </div>
  );
}

function Dialogs({ model: { dialog, setDialog, acts, entry } }: { model: FloorModel }) {
  const close = () => setDialog(undefined);
  const { pain, judge, note } = words;
  switch (dialog?.kind) {
    case undefined:
      return null;
    case 'keys':
      return <FloorKeys onClose={close} />;
    case 'note':
      return (
        <TextDialog
          title={note.title(entry?.person.name ?? '')}
          label={note.label}
          yes={note.yes}
          no={note.no}
          onYes={acts.keepNote}
          onClose={close}
        />
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
