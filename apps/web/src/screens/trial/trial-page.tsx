import { type Curve, type LabId, routes, type TrialView } from '@sthene/contract';
import { useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { useNavigate } from 'react-router';
import { CurveController } from '../../curve/controller.ts';
import { noEvidence } from '../../curve/model.ts';
import { useMay } from '../../data/access.ts';
import { useTrialAct } from '../../data/decisions.ts';
import { useUncertainty } from '../../data/queries.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSay } from '../../parts/status.tsx';
import { words } from '../../words/index.ts';
import { checkTitle } from './check-title.ts';
import { ChecksSection } from './checks-section.tsx';
import { curveModel, linesOf, type Shown } from './curve-model.ts';
import { CurvePanel } from './curve-panel.tsx';
import { DecideDialog, type DecideKind } from './decide-dialog.tsx';
import { DecisionsSection } from './decisions-section.tsx';
import { type Highlight, highlightEvidence, highlightSpan, together, trialEvidence } from './evidence.ts';
import { FilmPanel } from './film-panel.tsx';
import { effortView, spanView } from './fits.ts';
import { metricTitle } from './groups.ts';
import { KeysDialog } from './keys-dialog.tsx';
import { MotionPart } from './motion-part.tsx';
import { OnsetPanel } from './onset-panel.tsx';
import { PressurePart } from './pressure-part.tsx';
import { type SectionName, Sections } from './sections.tsx';
import { orderedSiblings } from './siblings.ts';
import { stopsOf } from './stops.ts';
import { TrialProvider, type TrialShared } from './trial-context.ts';
import { TrialHeader, useUndo } from './trial-header.tsx';
import { useOverlays } from './use-overlays.ts';
import { useTrialKeys } from './use-trial-keys.ts';
import { ValuesSection } from './values-section.tsx';
import { VerdictCard } from './verdict-card.tsx';

/** The screen once trial and curve are there. */
export function TrialPage({ lab, view, curve }: { lab: LabId; view: TrialView; curve: Curve }) {
  const { result } = view;
  const [controller] = useState(() => new CurveController());
  const [highlight, setHighlightState] = useState<Highlight>();
  const [shown, setShown] = useState<Shown>({ sides: true, plates: false, evidence: true });
  const [section, setSection] = useState<SectionName>('values');
  const [moving, setMoving] = useState(false);
  const [asking, setAsking] = useState<DecideKind>();
  const [keysOpen, setKeysOpen] = useState(false);
  const overlays = useOverlays(lab, view);
  const act = useTrialAct(lab, view.id);
  const say = useSay();
  const navigate = useNavigate();
  const uncertainty = useUncertainty(lab, view.id, view.provenance.computedAt);

  const lines = useMemo(() => linesOf(curve, result), [curve, result]);
  const stops = useMemo(() => stopsOf(result, curve), [result, curve]);
  const model = useMemo(() => {
    const title = highlight?.kind === 'metric' ? metricTitle(highlight.id) : highlight ? checkTitle(highlight.id) : '';
    const origin = overlays.loaded.length > 0 && result.onset.ok ? result.onset.value.index : 0;
    const standing = shown.evidence || moving ? trialEvidence(result, curve.unit, moving, origin) : noEvidence;
    return curveModel(
      view,
      lines,
      shown,
      together(standing, highlightEvidence(result, highlight, title)),
      overlays.loaded,
    );
  }, [view, lines, shown, highlight, moving, result, curve.unit, overlays.loaded]);
  const firstModel = useRef(true);
  useLayoutEffect(() => {
    controller.setModel(model, firstModel.current ? effortView(model, result) : undefined);
    firstModel.current = false;
  }, [controller, model, result]);

  const zoomTo = useCallback(
    (span: { start: number; end: number }) => controller.setView(spanView(model, span)),
    [controller, model],
  );
  const setHighlight = useCallback(
    (next: Highlight) => {
      setHighlightState(next);
      const span = highlightSpan(result, next);
      const visible = controller.state().view;
      if (
        span &&
        (model.start + span.end / model.rate < visible.from || model.start + span.start / model.rate > visible.to)
      )
        zoomTo(span);
    },
    [controller, model, result, zoomTo],
  );
  const decides = useMay()(routes.decide);
  const startMoving = useCallback(() => setMoving(decides), [decides]);
  const shared: TrialShared = {
    lab,
    view,
    uncertainty: uncertainty.data,
    unit: curve.unit,
    notices: curve.notices,
    controller,
    highlight,
    setHighlight,
    zoomTo,
    decides,
    ask: setAsking,
    startMoving,
  };

  const undo = useUndo(view, act, setAsking);
  const siblings = orderedSiblings(view);
  const step = (by: 1 | -1) => {
    const next = siblings[siblings.findIndex((row) => row.id === view.id) + by];
    if (next) void navigate(`/${lab}/trials/${next.id}`);
  };
  useTrialKeys(
    { controller, model, result, stops, hasDialog: asking !== undefined || keysOpen },
    {
      undo: () => decides && undo('undo'),
      redo: () => decides && undo('redo'),
      moveOnset: startMoving,
      trial: step,
      help: () => setKeysOpen(true),
    },
  );
  useEffect(() => {
    if (moving) document.querySelector<HTMLElement>('#onset-time')?.focus();
  }, [moving]);

  const done = (saved: TrialView) => {
    const last = saved.decisions.at(-1);
    if (last) say(words.trial.saved(words.decisions.kinds[last.kind].toLowerCase()));
  };

  return (
    <TrialProvider value={shared}>
      <article className="trial" data-moving={moving}>
        <TrialHeader overlays={overlays} model={model} act={act} onAsk={setAsking} />
        <div className="trial-verdict">
          {act.isError && <ProblemCard error={act.error} onRetry={() => act.reset()} />}
          {moving ? (
            <OnsetPanel
              curve={curve}
              model={model}
              act={act}
              onDone={(saved) => {
                setMoving(false);
                if (saved) done(saved);
              }}
            />
          ) : (
            <VerdictCard
              onShowCheck={(id) => {
                setSection('checks');
                setHighlight({ kind: 'check', id });
              }}
            />
          )}
          <FilmPanel hasDialog={asking !== undefined || keysOpen} />
        </div>
        <CurvePanel
          curve={curve}
          model={model}
          stops={stops}
          shown={shown}
          setShown={setShown}
          moving={moving}
          overlays={overlays.loaded}
          onKeys={() => setKeysOpen(true)}
        />
        <div className="trial-beside">
          <Sections current={section} onChange={setSection} />
          <ValuesSection current={section === 'values'}>
            <PressurePart />
            {result.jump && <MotionPart result={result} curve={curve} />}
          </ValuesSection>
          <ChecksSection current={section === 'checks'} />
          <DecisionsSection current={section === 'decisions'} />
        </div>
        {asking && (
          <DecideDialog kind={asking} view={view} act={act} onClose={() => setAsking(undefined)} onDone={done} />
        )}
        {keysOpen && <KeysDialog onClose={() => setKeysOpen(false)} />}
      </article>
    </TrialProvider>
  );
}
