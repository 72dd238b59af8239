import { type CurveModel, wholeOf } from '../../curve/model.ts';
import { Icon } from '../../parts/icon.tsx';
import { Menu } from '../../parts/menu.tsx';
import { words } from '../../words/index.ts';
import type { Shown } from './curve-model.ts';
import { effortView, riseView } from './fits.ts';
import type { Stop } from './stops.ts';
import { useShared } from './trial-context.ts';
import { useCurveState } from './use-curve-state.ts';
import { goToStop } from './use-trial-keys.ts';

interface CurveToolsProps {
  readonly model: CurveModel;
  readonly stops: readonly Stop[];
  readonly shown: Shown;
  setShown(shown: Shown): void;
  readonly moving: boolean;
  onKeys(): void;
}

/** Buttons for everything keys and gestures do on the curve. */
export function CurveTools({ model, stops, shown, setShown, moving, onKeys }: CurveToolsProps) {
  const { controller, view, startMoving, decides } = useShared();
  const tool = useCurveState(controller, (state) => state.tool);
  const forceFit = useCurveState(controller, (state) => state.forceFit);
  const t = words.curve;
  const go = (direction: 1 | -1) => goToStop({ controller, model, stops }, direction);
  return (
    <div className="curve-tools" role="toolbar" aria-label={t.tools}>
      <span className="joined">
        <button
          type="button"
          className="button square"
          title={`${t.zoomOut} (\u2212)`}
          aria-label={t.zoomOut}
          onClick={() => controller.zoom(1.5)}
        >
          <Icon name="minus" size={16} />
        </button>
        <button
          type="button"
          className="button square"
          title={`${t.zoomIn} (+)`}
          aria-label={t.zoomIn}
          onClick={() => controller.zoom(1 / 1.5)}
        >
          <Icon name="plus" size={16} />
        </button>
      </span>
      <span className="joined">
        <button
          type="button"
          className="button"
          title={`${t.fitAll} (0)`}
          onClick={() => controller.setView(wholeOf(model))}
        >
          {t.fitAll}
        </button>
        <button
          type="button"
          className="button"
          title={`${t.fitEffort} (F)`}
          onClick={() => controller.setView(effortView(model, view.result))}
        >
          {t.fitEffort}
        </button>
        <button
          type="button"
          className="button"
          title={`${t.fitRise} (R)`}
          onClick={() => controller.setView(riseView(model, view.result))}
        >
          {t.fitRise}
        </button>
      </span>
      <span className="joined curve-tools-wide">
        <button
          type="button"
          className="button square"
          title={`${t.previousEvent} (P)`}
          aria-label={t.previousEvent}
          onClick={() => go(-1)}
        >
          <Icon name="event-back" size={16} />
        </button>
        <button
          type="button"
          className="button square"
          title={`${t.nextEvent} (N)`}
          aria-label={t.nextEvent}
          onClick={() => go(1)}
        >
          <Icon name="event-next" size={16} />
        </button>
      </span>
      <span className="joined curve-tools-wide">
        <button
          type="button"
          className="button"
          aria-pressed={tool === 'markers'}
          title={`${t.markersHelp} (A, B)`}
          onClick={() => controller.setTool(tool === 'markers' ? 'pan' : 'markers')}
        >
          {t.markers}
        </button>
      </span>
      <Menu
        label={`${t.shown}: ${t.shownHelp.toLowerCase()}`}
        face={
          <>
            {t.shown} <Icon name="open" size={14} />
          </>
        }
        className="button quiet small"
      >
        {() => (
          <fieldset className="menu-form">
            <legend>{t.shownHelp}</legend>
            <Choice label={t.showEvidence} on={shown.evidence} set={(evidence) => setShown({ ...shown, evidence })} />
            <Choice label={t.showSides} on={shown.sides} set={(sides) => setShown({ ...shown, sides })} />
            <Choice label={t.showPlates} on={shown.plates} set={(plates) => setShown({ ...shown, plates })} />
            <Choice
              label={t.fitForce}
              on={forceFit === 'window'}
              set={(on) => controller.setForceFit(on ? 'window' : 'whole')}
            />
          </fieldset>
        )}
      </Menu>
      <span className="curve-tools-end">
        {decides && (
          <button
            type="button"
            className="button"
            aria-pressed={moving}
            title={`${words.trial.moveOnset} (O)`}
            onClick={startMoving}
            disabled={moving}
          >
            <Icon name="onset" size={16} />
            {words.trial.moveOnset}
          </button>
        )}
        <button
          type="button"
          className="button quiet square"
          aria-label={t.keys}
          title={`${t.keys} (?)`}
          onClick={onKeys}
        >
          <Icon name="keys" size={18} />
        </button>
      </span>
    </div>
  );
}

function Choice({ label, on, set }: { label: string; on: boolean; set: (on: boolean) => void }) {
  return (
    <label className="menu-choice">
      <input type="checkbox" checked={on} onChange={(event) => set(event.target.checked)} />
      {label}
    </label>
  );
}
