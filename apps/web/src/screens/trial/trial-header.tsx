import type { TrialView } from '@sthene/contract';
import { Link } from 'react-router';
import type { CurveModel } from '../../curve/model.ts';
import type { useTrialAct } from '../../data/decisions.ts';
import { readPreference } from '../../data/preferences.ts';
import { whenText } from '../../number/when.ts';
import { Icon } from '../../parts/icon.tsx';
import { Menu } from '../../parts/menu.tsx';
import { useSay } from '../../parts/status.tsx';
import { words } from '../../words/index.ts';
import type { DecideKind } from './decide-dialog.tsx';
import { ExportMenu } from './export-menu.tsx';
import { orderedSiblings } from './siblings.ts';
import { testTitle } from './test-title.ts';
import { useShared } from './trial-context.ts';
import type { Overlays } from './use-overlays.ts';
import './header.css';

interface TrialHeaderProps {
  readonly overlays: Overlays;
  readonly model: CurveModel;
  readonly act: ReturnType<typeof useTrialAct>;
  onAsk(kind: DecideKind): void;
}

/** Whose trial, when, by which method; its neighbours; undo, overlay, export. */
export function TrialHeader({ overlays, model, act, onAsk }: TrialHeaderProps) {
  const { view, lab, decides } = useShared();
  const siblings = orderedSiblings(view);
  const t = words.trial;
  return (
    <header className="trial-head">
      <div className="trial-title">
        <h1>
          {view.person.name}{' '}
          <span className="trial-title-part">
            {words.effort[view.effort]} {view.order} of {siblings.length}
          </span>
        </h1>
        <p className="soft small">
          {testTitle(view.result.test)} {'\u00b7'}{' '}
          <Link to={`/${lab}/sessions/${view.session.id}`}>{whenText(view.session.startedAt)}</Link> {'\u00b7'}{' '}
          {t.method(view.result.method.name, view.result.method.version)}
        </p>
      </div>
      <nav className="trial-steps" aria-label={t.ofSession}>
        {siblings.map((row) => (
          <Link
            key={row.id}
            to={`/${lab}/trials/${row.id}`}
            aria-current={row.id === view.id ? 'page' : undefined}
            aria-label={`${t.trialN(row.order)}, ${words.state[row.state]}`}
            title={`${t.trialN(row.order)}, ${words.state[row.state]}`}
            data-state={row.state}
          >
            {row.order}
            <Icon name={row.state === 'overruled' ? 'counts' : row.state} size={17} />
          </Link>
        ))}
      </nav>
      <div className="trial-acts">
        {decides && <UndoRedo act={act} onAsk={onAsk} />}
        <Menu
          label={t.overlay}
          face={
            <>
              <Icon name="layers" size={17} /> {t.overlay}
              {overlays.chosen.length > 0 && <b className="number">{overlays.chosen.length}</b>}
            </>
          }
          className="button"
          align="end"
        >
          {() => <OverlayChoice overlays={overlays} />}
        </Menu>
        <ExportMenu model={model} overlays={overlays} />
      </div>
    </header>
  );
}

function UndoRedo({ act, onAsk }: { act: ReturnType<typeof useTrialAct>; onAsk: (kind: DecideKind) => void }) {
  const { view } = useShared();
  const run = useUndo(view, act, onAsk);
  const t = words.trial;
  return (
    <span className="joined">
      {(['undo', 'redo'] as const).map((kind) => {
        const step = view[kind];
        const label = step
          ? (kind === 'undo' ? t.undoWhat : t.redoWhat)(step.words)
          : kind === 'undo'
            ? t.nothingToUndo
            : t.nothingToRedo;
        return (
          <button
            key={kind}
            type="button"
            className="button square"
            aria-label={label}
            title={label}
            disabled={!step || act.isPending}
            onClick={() => run(kind)}
          >
            <Icon name={kind} size={17} />
          </button>
        );
      })}
    </span>
  );
}

/** Undo or redo at once when somebody has signed; else ask for the name first. */
export function useUndo(view: TrialView, act: ReturnType<typeof useTrialAct>, onAsk: (kind: DecideKind) => void) {
  const say = useSay();
  return (kind: 'undo' | 'redo') => {
    const step = view[kind];
    if (!step) return;
    const by = readPreference('signed-as');
    if (!by) return onAsk(kind);
    act.mutate(
      { kind, by },
      { onSuccess: () => say((kind === 'undo' ? words.trial.undone : words.trial.redone)(step.words)) },
    );
  };
}

function OverlayChoice({ overlays }: { overlays: Overlays }) {
  const { view } = useShared();
  const others = orderedSiblings(view).filter((row) => row.id !== view.id);
  const t = words.trial;
  if (!view.result.onset.ok) return <p className="small">{t.overlayNoOnset}</p>;
  if (others.length === 0) return <p className="small">{t.overlayNone}</p>;
  return (
    <fieldset className="menu-form">
      <legend>{t.overlayHelp}</legend>
      {others.map((row) => (
        <label key={row.id} className="menu-choice">
          <input type="checkbox" checked={overlays.chosen.includes(row.id)} onChange={() => overlays.toggle(row.id)} />
          {t.trialN(row.order)} <span className="soft">{words.state[row.state]}</span>
          <OverlayNote overlays={overlays} id={row.id} />
        </label>
      ))}
    </fieldset>
  );
}

function OverlayNote({ overlays, id }: { overlays: Overlays; id: string }) {
  if (overlays.waiting.includes(id)) return <span className="soft">{words.trial.overlayWaiting}</span>;
  if (overlays.failed.includes(id)) return <span className="soft">{words.problem.unknown}</span>;
  const loaded = overlays.loaded.find((other) => other.view.id === id);
  return loaded && !loaded.view.result.onset.ok ? <span className="soft">{words.trial.overlayLacks}</span> : null;
}
