import type { Curve, TrialView } from '@sthene/contract';
import { useEffect, useId, useState } from 'react';
import type { CurveModel } from '../../curve/model.ts';
import type { useTrialAct } from '../../data/decisions.ts';
import { usePreference } from '../../data/use-preference.ts';
import { decimalsFor, numberText, signedText, unitText } from '../../number/format.ts';
import { Icon } from '../../parts/icon.tsx';
import { words } from '../../words/index.ts';
import { valuesOf } from './curve-model.ts';
import { automaticOf } from './evidence.ts';
import { riseView } from './fits.ts';
import { onsetOf, resolutionOf, secondsText } from './numbers.ts';
import { useShared } from './trial-context.ts';
import './onset.css';

interface OnsetPanelProps {
  readonly curve: Curve;
  readonly model: CurveModel;
  readonly act: ReturnType<typeof useTrialAct>;
  onDone(saved?: TrialView): void;
}

/** Placing the onset by hand: a line on the curve, a number field, arrow keys; saved only with a reason and a name. */
export function OnsetPanel({ curve, model, act, onDone }: OnsetPanelProps) {
  const { view, controller } = useShared();
  const { result } = view;
  const rate = curve.sampleRate;
  const automatic = automaticOf(result);
  const start = onsetOf(result)?.index ?? result.events?.halfRise ?? Math.round(curve.samples / 2);
  const [sample, setSample] = useState(Math.round(start));
  const [field, setField] = useState(secondsText(start, rate));
  const [reason, setReason] = useState('');
  const [text, setText] = useState('');
  const [name, keepName] = usePreference('signed-as');
  const [by, setBy] = useState(name ?? '');
  const [tried, setTried] = useState(false);
  const ids = { time: 'onset-time', reason: useId(), text: useId(), by: useId(), error: useId() };
  const t = words.onset;
  const total = valuesOf(curve, 'total');
  const lastSample = curve.samples - 1;

  const move = (next: number) => {
    const inside = Math.min(lastSample, Math.max(0, Math.round(next)));
    setSample(inside);
    setField(secondsText(inside, rate));
  };
  const moveRef = { current: move };
  useEffect(() => {
    controller.onDraft = (next) => moveRef.current(next);
    const before = controller.state().view;
    // Fine work needs a close view; the old one comes back on leaving.
    if (before.to - before.from > 1.5) controller.setView(riseView(model, result));
    return () => {
      controller.onDraft = undefined;
      controller.setDraft(undefined);
      controller.setView(before);
    };
  }, [controller]);
  useEffect(() => controller.setDraft(sample), [controller, sample]);

  const typed = (value: string) => {
    setField(value);
    const seconds = Number(value.replace(',', '.'));
    if (value.trim() !== '' && Number.isFinite(seconds) && seconds >= 0 && seconds * rate <= lastSample)
      setSample(Math.round(seconds * rate));
  };
  const seconds = Number(field.replace(',', '.'));
  const outside = field.trim() === '' || !Number.isFinite(seconds) || seconds < 0 || seconds * rate > lastSample + 0.5;
  const force = total?.[sample];
  const resolution = resolutionOf(result);
  const words_ = [reason === '' || reason === 'other' ? '' : t.reasons[reason as keyof typeof t.reasons], text.trim()]
    .filter(Boolean)
    .join(': ');
  const missing =
    words_ === ''
      ? reason === 'other'
        ? words.decide.needsText
        : words.decide.needsReason
      : by.trim() === ''
        ? words.decide.needsName
        : '';

  const send = (kind: 'onset-by-hand' | 'onset-automatic', why: string) => {
    keepName(by.trim());
    act.mutate(
      {
        kind: 'decide',
        draft: { kind, reason: why, by: by.trim(), ...(kind === 'onset-by-hand' ? { index: sample } : {}) },
      },
      { onSuccess: onDone },
    );
  };
  return (
    <form
      className="onset-panel"
      aria-label={t.title}
      onSubmit={(event) => {
        event.preventDefault();
        setTried(true);
        if (!missing && !outside) send('onset-by-hand', words_);
      }}
      onKeyDown={(event) => {
        if (event.key === 'Escape') onDone();
      }}
    >
      <h2>{t.title}</h2>
      <p className="small soft">{t.help}</p>
      <div className="onset-time">
        <label htmlFor={ids.time}>{t.time}</label>
        <span className="joined">
          <button type="button" className="button square" aria-label={t.earlier} onClick={() => move(sample - 1)}>
            <Icon name="left" size={16} />
          </button>
          <input
            id={ids.time}
            className="number"
            inputMode="decimal"
            value={field}
            aria-invalid={outside}
            aria-describedby={outside ? ids.error : undefined}
            onChange={(event) => typed(event.target.value)}
            onBlur={() => setField(secondsText(sample, rate))}
            onKeyDown={(event) => {
              const direction = event.key === 'ArrowUp' ? 1 : event.key === 'ArrowDown' ? -1 : 0;
              if (direction === 0) return;
              event.preventDefault();
              move(sample + direction * (event.shiftKey ? 10 : 1));
            }}
          />
          <button type="button" className="button square" aria-label={t.later} onClick={() => move(sample + 1)}>
            <Icon name="right" size={16} />
          </button>
        </span>
      </div>
      {outside && (
        <p id={ids.error} className="field-error small">
          {t.outside('0', secondsText(lastSample, rate))}
        </p>
      )}
      <dl className="onset-facts" aria-live="polite">
        <div>
          <dt>{t.force}</dt>
          <dd className="number">
            {force === undefined
              ? ''
              : `${numberText(force, decimalsFor(curve.unit, force, resolution))} ${unitText(curve.unit)}`}
          </dd>
        </div>
        <div>
          <dt>{t.automatic}</dt>
          <dd className="number">{automatic === undefined ? t.none : `${secondsText(automatic, rate)} s`}</dd>
        </div>
        <div>
          <dt>{t.difference}</dt>
          <dd className="number">
            {automatic === undefined
              ? ''
              : `${signedText((1000 * (sample - automatic)) / rate, rate > 1000 ? 1 : 0)} ms`}
          </dd>
        </div>
      </dl>
      <label htmlFor={ids.reason}>{t.reason}</label>
      <select id={ids.reason} value={reason} onChange={(event) => setReason(event.target.value)}>
        <option value="">{words.decide.choose}</option>
        {Object.entries(t.reasons).map(([id, label]) => (
          <option key={id} value={id}>
            {label}
          </option>
        ))}
      </select>
      <label htmlFor={ids.text}>
        {t.text} {reason !== 'other' && <span className="soft small">({words.decide.optional})</span>}
      </label>
      <input id={ids.text} value={text} maxLength={400} onChange={(event) => setText(event.target.value)} />
      <label htmlFor={ids.by}>{words.decide.by}</label>
      <input
        id={ids.by}
        value={by}
        maxLength={100}
        autoComplete="name"
        onChange={(event) => setBy(event.target.value)}
      />
      {tried && missing && (
        <p className="field-error small" role="alert">
          {missing}
        </p>
      )}
      <p className="small soft">{t.recomputed}</p>
      <div className="onset-acts">
        <button type="submit" className="button main" disabled={act.isPending}>
          {t.save}
        </button>
        <button type="button" className="button" onClick={() => onDone()}>
          {t.cancel}
        </button>
        {onsetOf(result)?.byHand && (
          <button
            type="button"
            className="button"
            disabled={act.isPending}
            onClick={() => {
              setTried(true);
              if (by.trim() !== '') send('onset-automatic', words_ || t.backReason);
            }}
          >
            {t.back}
          </button>
        )}
      </div>
    </form>
  );
}
