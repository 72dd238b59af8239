import type { Curve, TrialView } from '@sthene/contract';
import { type KeyboardEvent, useEffect, useState } from 'react';
import type { CurveController } from '../../curve/controller.ts';
import { type CurveModel, instantOf, nearestSample } from '../../curve/model.ts';
import { decimalsFor, numberText } from '../../number/format.ts';
import { reasonWords, words } from '../../words/index.ts';
import { secondsText, writerOf } from './numbers.ts';
import type { Stop } from './stops.ts';

/** One sentence that says what the curve shows. */
export function curveSummary(view: TrialView, curve: Curve): string {
  const { result } = view;
  const write = writerOf(result);
  const { jump } = result;
  const peak = jump?.peakForce ? { index: jump.peakForce.index, force: jump.peakForce.value } : result.events?.peak;
  const instant = (sample: number) => secondsText(sample, curve.sampleRate);
  return words.curve.summary({
    who: `${view.person.name}, ${words.effort[view.effort]} ${view.order}`,
    duration: secondsText(curve.samples, curve.sampleRate),
    onset: result.onset.ok
      ? jump
        ? words.curve.summaryJump(instant(result.onset.value.index), instant(jump.takeOff))
        : words.curve.summaryOnset(instant(result.onset.value.index))
      : words.curve.summaryNoOnset(reasonWords(result.onset.reason)),
    peak: peak ? words.curve.summaryPeak(write(peak.force, curve.unit), instant(peak.index)) : '',
    verdict: words.state[view.state],
  });
}

/** Reading the curve with keys: what a key does, and what is then said. */
export function useReader(
  controller: CurveController,
  model: CurveModel,
  stops: readonly Stop[],
  series: number,
  setSeries: (index: number) => void,
  write: (value: number) => string,
) {
  const [spoken, setSpoken] = useState('');
  useEffect(() => {
    let timer = 0;
    let before: number | undefined;
    const stop = controller.subscribe(() => {
      const { overlay, byKeys } = controller.state();
      if (!byKeys || overlay.cursor === undefined || overlay.cursor === before) return;
      before = overlay.cursor;
      clearTimeout(timer);
      // Announced when the key rests: a held arrow would otherwise queue hundreds of sentences.
      timer = setTimeout(
        () => setSpoken(pointWords(model, stops, series, overlay.cursor as number, write)),
        150,
      ) as unknown as number;
    });
    return () => {
      stop();
      clearTimeout(timer);
    };
  }, [controller, model, stops, series, write]);

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey) return;
    const { view, overlay } = controller.state();
    const act = arrows(event, controller, model, view, overlay.cursor, overlay.draft);
    if (act) {
      event.preventDefault();
      act();
      return;
    }
    if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault();
      const count = model.series.length;
      const next = (series + (event.key === 'ArrowDown' ? 1 : count - 1)) % count;
      setSeries(next);
      setSpoken(
        pointWords(model, stops, next, overlay.cursor ?? nearestSample(model, (view.from + view.to) / 2), write),
      );
    }
  };
  return { spoken, onKeyDown };
}

function arrows(
  event: KeyboardEvent,
  controller: CurveController,
  model: CurveModel,
  view: { from: number; to: number },
  cursor: number | undefined,
  draft: number | undefined,
): (() => void) | undefined {
  const direction = event.key === 'ArrowRight' || event.key === 'PageDown' ? 1 : -1;
  switch (event.key) {
    case 'ArrowLeft':
    case 'ArrowRight': {
      if (draft !== undefined) return () => controller.onDraft?.(draft + direction * (event.shiftKey ? 10 : 1));
      if (event.shiftKey) return () => controller.pan(direction * 0.1);
      const stride = event.altKey ? 1 : Math.max(1, Math.round(((view.to - view.from) * model.rate) / 100));
      return () =>
        controller.setCursor((cursor ?? nearestSample(model, (view.from + view.to) / 2)) + direction * stride, true);
    }
    case 'PageUp':
    case 'PageDown':
      return () => controller.pan(direction * 0.9);
    case 'Home':
      return () => controller.setCursor(0, true);
    case 'End':
      return () => controller.setCursor(model.samples - 1, true);
    case 'Escape':
      return cursor === undefined ? undefined : () => controller.setCursor(undefined);
    default:
      return undefined;
  }
}

function pointWords(
  model: CurveModel,
  stops: readonly Stop[],
  index: number,
  sample: number,
  write: (value: number) => string,
): string {
  const line = model.series[index] ?? model.series[0];
  if (!line) return '';
  const instant = instantOf(model, sample);
  const time = numberText(instant, decimalsFor('s', 0, { sampleRate: model.rate }));
  const at = Math.round((instant - line.start) * line.rate);
  const value = line.pyramid.values[at];
  const missing = value === undefined || line.breaks.some((gap) => at >= gap.start && at < gap.end);
  const stop = stops.find((one) => one.at === sample);
  return `${stop ? `${stop.name}: ` : ''}${words.curve.point(time, line.name, missing ? words.curve.nothingThere : write(value))}`;
}
