import type { LiveState, LiveStore, RigLive, useWakeLock } from '../../live/index.ts';
import { liveWords as words } from '../../words/live.ts';
import type { FloorModel } from './use-floor.ts';

export interface ActBarProps {
  readonly rig: RigLive;
  readonly state: LiveState;
  readonly store: LiveStore;
  readonly model: FloorModel;
  readonly cues: { readonly awake: boolean; readonly toneOn: boolean };
  readonly wake: ReturnType<typeof useWakeLock>;
}

/** The large button of the phase, what else it allows, and, always in the same place, what stops. */
export function ActBar({ rig, state, store, model, cues, wake }: ActBarProps) {
  const { act } = words;
  const { acts, main, others, blank } = model;
  const { floor } = rig;
  const turn = floor?.turn !== undefined;
  const lost = state.link !== 'open';
  const holds = store.holdsControls;
  const stops = main?.kind === 'abort';
  return (
    <footer className="act-bar">
      {holds || stops || lost ? (
        <button
          type="button"
          className="button main act-main"
          data-stops={stops}
          disabled={lost || main?.kind === undefined}
          onClick={acts.press}
        >
          {main?.words}
        </button>
      ) : (
        <button type="button" className="button main act-main" onClick={() => store.takeControls()}>
          {act.take}
        </button>
      )}
      <div className="act-others">
        {others.map(({ kind, words: text }) => (
          <button
            key={kind}
            type="button"
            className="button big"
            disabled={lost || !holds}
            onClick={() => kind !== undefined && acts.send(kind)}
          >
            {text}
          </button>
        ))}
      </div>
      <div className="act-stops">
        <button
          type="button"
          className="button big"
          disabled={lost || !turn || !holds}
          onClick={() => acts.send('finish')}
        >
          {act.finish}
        </button>
        <button
          type="button"
          className="button big"
          disabled={lost || !turn || (floor?.held === true && !holds)}
          onClick={acts.toggleHold}
        >
          {floor?.held ? act.resume : act.hold}
        </button>
        <button type="button" className="button big act-stop" disabled={lost || !turn} onClick={acts.stop}>
          {act.stop}
        </button>
        <button type="button" className="button big act-pain" disabled={lost || !turn} onClick={acts.askPain}>
          {act.pain}
        </button>
      </div>
      <div className="act-tools">
        <button type="button" className="button big" disabled={!turn} onClick={acts.askNote}>
          {act.note}
        </button>
        <button type="button" className="button big" disabled={state.day === undefined} onClick={acts.askAthlete}>
          {act.athlete}
        </button>
        {floor !== undefined && !floor.guided && turn && (
          <button
            type="button"
            className="button big"
            role="switch"
            aria-checked={floor.armed}
            disabled={lost || (!holds && !floor.armed)}
            onClick={() => acts.send(floor.armed ? 'disarm' : 'arm')}
          >
            {act.armed}: {floor.armed ? words.on : words.off}
          </button>
        )}
        <button type="button" className="button big" disabled={lost || !holds} onClick={acts.toggleWall}>
          {blank ? act.show : act.blank}
        </button>
      </div>
      <ControlsLine state={state} store={store} cues={cues} wake={wake} />
    </footer>
  );
}

function ControlsLine({ state, store, cues, wake }: Pick<ActBarProps, 'state' | 'store' | 'cues' | 'wake'>) {
  const { controls } = state;
  const holds = store.holdsControls;
  const sound = !cues.toneOn ? words.soundOff : cues.awake ? words.soundOn : words.soundAsleep;
  return (
    <p className="controls-line small">
      <span>
        {holds ? words.controls.yours : controls.name ? words.controls.other(controls.name) : words.controls.nobody}
      </span>
      <span className={cues.toneOn && !cues.awake ? 'line-warn' : 'soft'}>{sound}</span>
      {wake !== 'off' && <span className={wake === 'held' ? 'soft' : 'line-warn'}>{words.wake[wake]}</span>}
    </p>
  );
}
