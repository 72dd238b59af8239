import { type Day, type LabId, type LiveTurn, videoRoutes } from '@sthene/contract';
import { type CSSProperties, useMemo } from 'react';
import { Link } from 'react-router';
import { useMay } from '../../data/access.ts';
import { flashSize, inEffort, type LiveState, type LiveStore, type RigLive, useWakeLock } from '../../live/index.ts';
import { RigLetter } from '../../parts/rig-letter.tsx';
import { FilmCorner } from '../../video/film-corner.tsx';
import { dayWords } from '../../words/day.ts';
import { liveWords as words } from '../../words/live.ts';
import { protocolOf, setupFieldsOf } from '../day/protocol-of.ts';
import { testTitle } from '../trial/test-title.ts';
import { ActBar } from './act-bar.tsx';
import { Announcer } from './announcer.tsx';
import { Cautions } from './cautions.tsx';
import { BalanceLine, CurvePanel } from './curve-panel.tsx';
import { dayAddress, FloorDialogs } from './floor-dialogs.tsx';
import { Notices } from './notices.tsx';
import { NowPanel } from './now-panel.tsx';
import { balanceOf, forceView } from './numbers.ts';
import { PhaseList } from './phase-list.tsx';
import { QuestionCard } from './question-card.tsx';
import { RecordingLight } from './recording-light.tsx';
import { RunningOrder } from './running-order.tsx';
import { ScreenSettings, useSwitch } from './screen-settings.tsx';
import { SetupCard, SetupMissing } from './setup-card.tsx';
import { useCues } from './use-cues.ts';
import { useFloor } from './use-floor.ts';
import { useLeaving } from './use-leaving.ts';
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
  const cues = useCues(store, rig);
  const wake = useWakeLock(state.day !== undefined);
  const [showWeight] = useSwitch('show-weight', false);
  const [filmsHere] = useSwitch('film-here', false);
  const may = useMay();
  const { floor, verdict, now, view: rigView } = rig;
  const { mode, less } = forceView(floor, showWeight);
  const view = useMemo(() => ({ mode, less }), [mode, less]);
  const lost = state.link !== 'open';
  const silent = isSilent(rigView);
  const phase = floor?.phase ?? 'waiting';
  const judged = verdict !== undefined && (phase === 'verdict' || phase === 'rest');
  const underWay = floor?.turn !== undefined && (phase === 'ready' || phase === 'cue' || inEffort(phase));
  const fields = model.entry === undefined ? [] : setupFieldsOf(state.day ?? {}, model.entry.test);
  const askToLeave = () => model.setDialog({ kind: 'leave' });
  useLeaving(underWay, askToLeave);
  return (
    <div className="floor" data-lost={lost || silent} data-phase={phase}>
      <header className="floor-top">
        <h1>
          {rigView && <RigLetter letter={rigView.letter} shape={rigView.shape} size={44} />}
          <span className="unseen">
            {words.floor} {words.rig(rigView?.letter ?? '')}
          </span>
        </h1>
        <RunningOrder day={state.day} dayAt={state.dayAt} rig={id} rigs={state.rigs} onChoose={model.acts.askAthlete} />
        <ScreenSettings lab={lab} camera={`/${lab}/camera/${id}`} onKeys={() => model.setDialog({ kind: 'keys' })} />
        <Link
          className="button"
          to={dayAddress(lab, state.day)}
          onClick={(event) => {
            if (!underWay) return;
            event.preventDefault();
            askToLeave();
          }}
        >
          {words.leave}
        </Link>
      </header>
      <Notices
        state={state}
        rig={id}
        unsent={model.unsent && words.unsent[model.unsent]}
        onRetry={() => store.link.retry()}
        onDismiss={model.acts.dismiss}
        onSeenBehind={() => store.forgetBehind()}
      />
      <main className="floor-middle" id="page">
        <section className="floor-paper" aria-label={words.curve.label}>
          <CurvePanel lab={lab} rig={rig} view={view} />
          {model.question && (
            <QuestionCard
              key={model.question.id}
              question={model.question}
              mayAnswer={store.holdsControls}
              onAnswer={(choice) => model.question && store.answer(model.question.id, choice)}
              onTake={() => store.takeControls()}
            />
          )}
          <BalanceLine value={silent ? undefined : balanceOf(now)} silent={silent} />
        </section>
        <aside className="floor-side" aria-label={words.phases}>
          {floor?.turn?.battery && <BatteryLine turn={floor.turn} note={floor.weighing?.note} phase={phase} />}
          <PhaseList phase={phase} jump={floor?.jump} />
          {(!(judged && phase === 'verdict') || floor?.held) && (
            <NowPanel rig={rig} view={view} restLeft={model.restLeft} silent={silent} />
          )}
          {phase === 'waiting' && <NextCard model={model} day={state.day !== undefined} lab={lab} />}
          {phase === 'set-up' && model.entry && (
            <SetupCard
              entry={model.entry}
              fields={fields}
              onSame={model.acts.sameSetup}
              onChange={() => model.setDialog({ kind: 'setup' })}
            />
          )}
          {judged && (
            <VerdictPanel
              lab={lab}
              verdict={verdict}
              view={view}
              mayJudge={store.holdsControls && !lost}
              asked={model.question !== undefined}
              onJudge={(decision) => model.setDialog({ kind: 'judge', decision, trial: floor?.trial ?? verdict.trial })}
            />
          )}
          {phase === 'rest' && model.entry && <SetupMissing entry={model.entry} fields={fields} />}
          {(phase === 'rest' || phase === 'waiting') && <TooFew day={state.day} here={model.entry?.id} />}
          {!judged && <Cautions floor={floor} day={state.day} entry={model.entry} />}
          {filmsHere && may(videoRoutes.beginVideo) && <FilmCorner lab={lab} rig={id} />}
          <RecordingLight rig={rig} lost={lost} />
        </aside>
      </main>
      <ActBar rig={rig} state={state} store={store} model={model} cues={cues} wake={wake} />
      {cues.flash !== undefined && <CueFlash sound={cues.flash.sound} words={cues.flash.words} />}
      <Announcer rig={rig} />
      <FloorDialogs lab={lab} id={id} rig={rig} state={state} holds={store.holdsControls} model={model} />
    </div>
  );
}

/** The plates send nothing: what stands on the screen is from before. */
const isSilent = (view: RigLive['view']): boolean =>
  view !== undefined && ['quiet', 'lost', 'closed'].includes(view.state);

function CueFlash({ sound, words: said }: { sound: string; words: string }) {
  const text = words.countWords[sound as keyof typeof words.countWords] ?? said;
  return (
    <div className="cue-flash" data-sound={sound} style={flashSize(text) as CSSProperties} aria-hidden="true">
      {text}
    </div>
  );
}

/** Who has nothing left to do and fewer efforts that count than their protocol asks for: of this turn, or of the whole day. */
function TooFew({ day, here }: { day: Day | undefined; here: string | undefined }) {
  const [first, ...more] = (day?.entries ?? []).filter(
    ({ id, incomplete, state }) => incomplete && state !== 'left' && (here === undefined || here === id),
  );
  if (first === undefined) return null;
  const minimum = more.length > 0 ? undefined : protocolOf(day ?? {}, first.test)?.maximal.minimum;
  return (
    <p className="line-warn">{words.tooFew([first, ...more].map(({ person }) => person.name).join(', '), minimum)}</p>
  );
}

/** Which test of the battery this is, and before the effort whether the one weighing stands. */
function BatteryLine({ turn, note, phase }: { turn: LiveTurn; note: string | undefined; phase: string }) {
  const { place = 1, of = 1 } = turn.battery ?? {};
  const told = note !== undefined && ['zero', 'stand-still', 'set-up', 'ready', 'rest'].includes(phase);
  return (
    <div className="floor-battery">
      <p>
        <b>{testTitle(turn.test)}</b> <span className="soft">{dayWords.battery.place(place, of)}</span>
      </p>
      {told && <p className="small">{note}</p>}
    </div>
  );
}

/** Nobody is on the rig: who comes, and for what. */
function NextCard({ model, day, lab }: { model: ReturnType<typeof useFloor>; day: boolean; lab: LabId }) {
  const { next } = model;
  if (!day)
    return (
      <p className="next-card">
        {words.noDay} <Link to={`/${lab}/day`}>{words.toDays}</Link>
      </p>
    );
  if (next === undefined) return <p className="next-card">{words.act.beginNobody}</p>;
  return (
    <section className="next-card">
      <h2>
        {words.wallWords.next}: {next.person.name}
      </h2>
      {next.battery && <p>{testTitle(next.test)}</p>}
      <p>{next.next}</p>
    </section>
  );
}
