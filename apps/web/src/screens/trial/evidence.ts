import { type Band, type Evidence, type Level, noEvidence, type Point, type Vertical } from '../../curve/model.ts';
import type { Ink } from '../../curve/scene.ts';
import { ruleWords, words } from '../../words/index.ts';
import { jumpEvidence } from './jump-evidence.ts';
import { onsetOf, type Result, secondsText, writerOf } from './numbers.ts';

/** What is opened beside the curve and therefore drawn on it. */
export type Highlight = { readonly kind: 'metric' | 'check'; readonly id: string } | undefined;

const epochs = [50, 100, 150, 200, 250];

/**
 * The standing evidence of a trial: what the method saw. Drawn from the result, nothing is recomputed.
 *
 * @param origin sample the written times count from (the onset, while other trials are aligned at it)
 */
export function trialEvidence(result: Result, unit: string, whileMoving: boolean, origin = 0): Evidence {
  const seconds = (sample: number) => secondsText(sample - origin, result.sampleRate);
  const { events, jump } = result;
  const write = writerOf(result);
  if (jump) return jumpEvidence(result, jump, whileMoving, { seconds, write, unit });
  if (!events) return noEvidence;
  const { curve } = words;
  const bands: Band[] = [];
  const verticals: Vertical[] = [];
  const points: Point[] = [];
  const levels: Level[] = [];
  const onset = onsetOf(result);
  const baseline = onset?.baseline ?? (events.baseline.ok ? events.baseline.value : undefined);
  if (baseline) {
    const label = curve.baseline(write(baseline.mean, unit), write(baseline.sd, unit));
    bands.push({ start: baseline.start, end: baseline.end, ink: 'band', label });
  }
  if (onset && !whileMoving) {
    const at = seconds(onset.index);
    verticals.push({
      at: onset.index,
      ink: 'pen',
      width: 1.6,
      priority: 100,
      label: curve.onset(at, ruleWords(onset.rule)),
    });
    const automatic = onset.byHand?.automatic;
    if (automatic?.ok) verticals.push(automaticLine(automatic.value, seconds));
    if (!onset.byHand && onset.thresholdUnit === unit && baseline)
      levels.push({
        start: baseline.start,
        end: onset.index,
        force: onset.threshold,
        ink: 'pen',
        label: curve.threshold(write(onset.threshold, unit)),
      });
  }
  if (whileMoving && onset) verticals.push(automaticLine(automaticOf(result) ?? onset.index, seconds));
  if (!whileMoving)
    for (const ms of epochs) {
      const measured = result.metrics[`force_at_${ms}`];
      const point = measured && 'value' in measured ? measured.evidence.points?.[0] : undefined;
      if (point)
        points.push({
          at: point.at,
          force: point.force,
          ink: 'pen',
          label: curve.epoch(ms),
          priority: ms === 100 || ms === 200 ? 56 : 50,
        });
    }
  points.push({
    at: events.halfRise,
    force: events.halfLevel,
    ink: 'ink-soft',
    radius: 2.4,
    label: curve.halfRise,
    priority: 10,
  });
  points.push({
    at: events.peak.index,
    force: events.peak.force,
    ink: 'ink',
    label: curve.peak(write(events.peak.force, unit)),
    priority: 90,
    place: 'above',
  });
  verticals.push({
    at: events.end,
    ink: 'ink-soft',
    dash: [2, 4],
    priority: 45,
    side: 'right',
    label: curve.end(seconds(events.end)),
  });
  return { bands, verticals, points, levels };
}

/** Sample of the automatic onset: its own when in force, the kept one when a person placed another. */
export function automaticOf(result: Result): number | undefined {
  const onset = onsetOf(result);
  if (!onset) return undefined;
  if (!onset.byHand) return onset.index;
  return onset.byHand.automatic.ok ? onset.byHand.automatic.value : undefined;
}

function automaticLine(at: number, seconds: (sample: number) => string): Vertical {
  return { at, ink: 'ink-soft', dash: [6, 4], priority: 75, label: words.curve.onsetAutomatic(seconds(at)) };
}

/** The evidence of one opened value or check. */
export function highlightEvidence(result: Result, highlight: Highlight, title: string): Evidence {
  if (!highlight) return noEvidence;
  if (highlight.kind === 'metric') {
    const evidence = result.metrics[highlight.id]?.evidence;
    return {
      ...spanEvidence(evidence?.interval, title, 'pen'),
      points: (evidence?.points ?? []).map((point) => ({
        at: point.at,
        force: point.force,
        ink: point.of === 'total' ? 'pen' : point.of,
        radius: 5,
        priority: 80,
      })),
    };
  }
  const check = result.checks[highlight.id];
  const ink: Ink = check?.status === 'fail' ? 'repeat' : check?.status === 'warn' ? 'look' : 'counts';
  return {
    ...spanEvidence(check?.judged, title, ink),
    points: (check?.marks ?? []).map((mark) => ({
      at: mark.at,
      force: mark.force,
      ink,
      radius: 5,
      label: mark.label,
      priority: 96,
    })),
  };
}

function spanEvidence(span: { start: number; end: number } | undefined, label: string, ink: Ink): Evidence {
  if (!span) return noEvidence;
  if (span.end - span.start < 1)
    return {
      ...noEvidence,
      verticals: [{ at: span.start, ink, width: 1.4, dash: [4, 3], priority: 85, label, side: 'right' }],
    };
  return { ...noEvidence, bands: [{ start: span.start, end: span.end, ink: 'band-pen', label, labelInk: ink }] };
}

/** The stretch of samples an opened value or check speaks of. */
export function highlightSpan(result: Result, highlight: Highlight): { start: number; end: number } | undefined {
  if (!highlight) return undefined;
  if (highlight.kind === 'check') {
    const check = result.checks[highlight.id];
    const marks = check?.marks?.map((mark) => mark.at) ?? [];
    return check?.judged ?? (marks.length > 0 ? { start: Math.min(...marks), end: Math.max(...marks) } : undefined);
  }
  const evidence = result.metrics[highlight.id]?.evidence;
  const at = evidence?.points?.map((point) => point.at) ?? [];
  return evidence?.interval ?? (at.length > 0 ? { start: Math.min(...at), end: Math.max(...at) } : undefined);
}

/** Puts the opened evidence over the standing one. */
export const together = (under: Evidence, over: Evidence): Evidence => ({
  bands: [...under.bands, ...over.bands],
  verticals: [...under.verticals, ...over.verticals],
  points: [...under.points, ...over.points],
  levels: [...under.levels, ...over.levels],
});
