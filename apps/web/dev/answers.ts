import { type Decision, type DecisionDraft, encodeCurve, type TrialRow, type TrialView } from '@sthene/contract';
import type { TrialResult } from '@sthene/core';
import { resultOf, type Simulated, simulatedTrials, uncertaintyOf } from './simulated.ts';

interface Kept {
  readonly simulated: Simulated;
  result: TrialResult;
  decisions: Decision[];
}

const startedAt = '2026-01-14T16:20:00.000Z';
const hash = (seed: string) =>
  [...seed.padEnd(16, seed)]
    .map((c) => c.charCodeAt(0).toString(16).padStart(2, '0'))
    .join('')
    .slice(0, 64)
    .padEnd(64, '7');
const person = { id: 'ines', name: 'Ines Okoro', code: 'FW-07' };
const session = {
  id: 'day-1',
  startedAt,
  protocol: 'imtp',
  setup: { bar_height: 17, knee_angle: 135, hip_angle: 143, grip: 'straps' },
};
const inSession = ['good', 'dip', 'best', 'tension', 'gap'];

/** A station in memory: answers from simulated recordings, forgets everything when development ends. */
export function makeStation() {
  const kept = new Map<string, Kept>(
    simulatedTrials().map((simulated) => [simulated.id, { simulated, result: resultOf(simulated), decisions: [] }]),
  );

  const inForce = (all: readonly Decision[]): Decision[] => {
    const reverted = new Set<string>();
    for (const one of [...all].reverse())
      if (one.reverts !== undefined && !reverted.has(one.id)) reverted.add(one.reverts);
    return all.filter((one) => !reverted.has(one.id) && one.kind !== 'undo' && one.kind !== 'redo');
  };
  const stateOf = ({ decisions, result }: Kept): TrialRow['state'] => {
    const last = [...inForce(decisions)]
      .reverse()
      .find((one) => ['exclude', 'restore', 'overrule-counts'].includes(one.kind));
    if (last?.kind === 'exclude') return 'excluded';
    return last?.kind === 'overrule-counts' ? 'overruled' : result.verdict;
  };
  const orderOf = (id: string) => inSession.indexOf(id) + 1 || 1;
  const row = (id: string): TrialRow => {
    const one = kept.get(id) as Kept;
    const peak = one.result.metrics.peak_force;
    return {
      id,
      order: orderOf(id),
      effort: 'maximal',
      verdict: one.result.verdict,
      state: stateOf(one),
      unit: 'N',
      ...(peak && 'value' in peak ? { peakForce: peak.value } : {}),
    };
  };
  const undoable = (all: readonly Decision[]) => inForce(all).at(-1);
  const redoable = (all: readonly Decision[]) => {
    const last = all.at(-1);
    return last?.kind === 'undo' ? last : undefined;
  };
  const view = (id: string): TrialView | undefined => {
    const one = kept.get(id);
    if (!one) return undefined;
    const { simulated, result, decisions } = one;
    const sha256 = hash(id);
    const undo = undoable(decisions);
    const redo = redoable(decisions);
    return {
      id,
      session,
      person,
      order: orderOf(id),
      effort: 'maximal',
      state: stateOf(one),
      recording: {
        sha256,
        label: simulated.label,
        fileName: `2026-01-14-${id}.csv`,
        format: 'text',
        sampleRate: simulated.forces.sampleRate,
        sampleCount: simulated.forces.sampleCount,
        importedAt: startedAt,
      },
      result: JSON.parse(JSON.stringify(result)) as TrialView['result'],
      provenance: {
        method: { ...result.method },
        application: 'sthene 0.1.0 (simulated station)',
        computedAt: startedAt,
        recording: sha256,
      },
      decisions,
      ...(undo ? { undo: { id: undo.id, words: undo.kind.replaceAll('-', ' ') } } : {}),
      ...(redo
        ? {
            redo: {
              id: redo.id,
              words: (decisions.find((other) => other.id === redo.reverts)?.kind ?? '').replaceAll('-', ' '),
            },
          }
        : {}),
      siblings: inSession.includes(id) ? inSession.map(row) : [row(id)],
    };
  };
  const handOf = (one: Kept) => {
    const hand = [...inForce(one.decisions)].reverse().find((d) => d.kind.startsWith('onset-'));
    return hand?.kind === 'onset-by-hand' ? { index: hand.index ?? 0, by: hand.by, reason: hand.reason } : undefined;
  };
  const judgeAgain = (one: Kept) => {
    one.result = resultOf(one.simulated, handOf(one));
  };
  const add = (
    id: string,
    draft: DecisionDraft | { kind: 'undo' | 'redo'; by: string; reason: string; reverts: string },
  ) => {
    const one = kept.get(id);
    if (!one) return undefined;
    const { kind, by, reason } = draft;
    const index = 'index' in draft && draft.index !== undefined ? { index: draft.index } : {};
    const reverts = 'reverts' in draft ? { reverts: draft.reverts } : {};
    one.decisions = [
      ...one.decisions,
      { id: `d${one.decisions.length + 1}`, kind, by, reason, at: new Date().toISOString(), ...index, ...reverts },
    ];
    judgeAgain(one);
    return view(id);
  };
  const turn = (id: string, kind: 'undo' | 'redo', by: string) => {
    const all = kept.get(id)?.decisions ?? [];
    const what = kind === 'undo' ? undoable(all) : redoable(all);
    return what && add(id, { kind, by, reason: kind, reverts: what.id });
  };
  const curve = (id: string) => {
    const forces = kept.get(id)?.simulated.forces;
    if (!forces) return undefined;
    const series: { name: string; of: 'total' | 'left' | 'right' | 'plate' }[] = [{ name: 'total', of: 'total' }];
    const values = [forces.total];
    for (const side of ['left', 'right'] as const) {
      const force = forces[side];
      if (force) {
        series.push({ name: side, of: side });
        values.push(force);
      }
    }
    if (forces.plates.length > 2)
      for (const plate of forces.plates) {
        series.push({ name: plate.name, of: 'plate' });
        values.push(plate.force);
      }
    const pairs = (spans: readonly { start: number; end: number }[]) =>
      spans.map((span) => [span.start, span.end] as const);
    return encodeCurve(
      {
        sampleRate: forces.sampleRate,
        samples: forces.sampleCount,
        unit: forces.unit,
        notices:
          forces.gaps.open.length > 0
            ? [{ code: 'samples-missing', message: 'Samples are missing in one stretch.' }]
            : [],
        series,
        gaps: { filled: pairs(forces.gaps.filled), open: pairs(forces.gaps.open) },
      },
      values,
    );
  };
  const uncertainty = (id: string) => {
    const one = kept.get(id);
    return one && uncertaintyOf(one.simulated, handOf(one));
  };
  const sessionRow = () => ({
    ...session,
    person,
    trials: inSession.length,
    counting: inSession.filter((id) => row(id).state === 'counts').length,
    lookAgain: 0,
    repeat: 0,
    excluded: 0,
  });
  const sessions = () => ({ total: 1, rows: [sessionRow()] });
  const sessionView = (id: string) =>
    id === session.id ? { ...sessionRow(), gravity: 9.80665, notes: '', rows: inSession.map(row) } : undefined;
  const lab = {
    id: 'example',
    name: 'Fernwater',
    demo: true,
    exists: true,
    folder: '',
    people: 1,
    sessions: 1,
    trials: inSession.length,
  };
  const info = () => ({ application: 'sthene', version: '0.1.0', engine: 'sqlite', labs: [lab] });
  return { view, curve, uncertainty, add, turn, sessions, sessionView, info };
}
