import {
  analyse,
  defaultMethod,
  forcesOf,
  metricRegistry,
  proposeForces,
  protocolRegistry,
  recordingOf,
  simulatePull,
  standardGravity,
} from '@sthene/core';
import { beforeAll, describe, expect, it } from 'vitest';
import { en } from '../../words/en.ts';
import { asHtml, asTabs, tableRows } from './copy-table.ts';
import { highlightEvidence, highlightSpan, trialEvidence } from './evidence.ts';
import { checkRows, findingWords } from './findings.ts';
import { groupsOf, headlineOf } from './groups.ts';
import { revertedNow, subjectOf } from './history.ts';
import type { Result } from './numbers.ts';
import { nextStop } from './stops.ts';
import { valuesCsv } from './values-csv.ts';

/** A simulated pull of known body weight; what the screen writes is compared with what the analysis returned. */
function resultOf(fault?: string): Result {
  const recording = recordingOf(
    simulatePull(
      { sampleRate: 1000, bodyWeight: 742, netForce: 2100, plateNoise: 0.6, ...(fault ? { fault } : {}) },
      35,
    ),
  );
  const { selection } = proposeForces(recording);
  const forces = selection && forcesOf(recording, selection);
  const protocol = protocolRegistry.get('imtp');
  if (!forces?.ok || !protocol) throw new Error('the simulated pull could not be prepared');
  const [trial] = analyse({
    forces: forces.value,
    protocol,
    method: defaultMethod,
    gravity: standardGravity,
    efforts: 'largest',
    bodyWeight: { value: 742, from: 'weighing' },
  }).trials;
  return JSON.parse(JSON.stringify(trial)) as Result;
}

let good: Result;
let dip: Result;
beforeAll(() => {
  good = resultOf();
  dip = resultOf('dip');
});

describe('values', () => {
  it('shows every metric of the method exactly once', () => {
    const shown = [...headlineOf(good), ...groupsOf(good).flatMap((group) => group.metrics)];
    expect([...shown].sort()).toEqual(Object.keys(good.metrics).sort());
    expect(groupsOf(good).some((group) => group.id === 'other')).toBe(false);
  });
  it('knows the headline metrics', () => {
    expect(headlineOf(good)).toHaveLength(10);
    for (const id of headlineOf(good)) expect(metricRegistry.has(id), id).toBe(true);
  });
  it('writes values in full precision that read back to the same numbers', () => {
    const lines = valuesCsv({ result: good, recording: { sha256: 'f'.repeat(64) } as never })
      .trim()
      .split('\n');
    expect(lines).toHaveLength(1 + Object.keys(good.metrics).length);
    const peak = lines.find((line) => line.startsWith('peak_force,'))?.split(',');
    const measured = good.metrics.peak_force;
    expect(measured && 'value' in measured && Number(peak?.[2]) === measured.value).toBe(true);
  });
  it('copies a table as tabs and as HTML with numbers that are numbers', () => {
    const rows = tableRows({ result: good });
    expect(asTabs(rows).split('\n')).toHaveLength(rows.length);
    expect(Number(rows[1]?.[1])).toBeGreaterThan(2000);
    expect(asHtml([['a<b'], ['1']])).toBe(
      '<table><thead><tr><th>a&lt;b</th></tr></thead><tbody><tr><td>1</td></tr></tbody></table>',
    );
  });
});

describe('checks', () => {
  it('lists the worst first and puts each finding in words with value and limit', () => {
    const rows = checkRows(dip);
    const ranks = rows.map((row) => ['fail', 'warn', 'pass', 'not-judged'].indexOf(row.result.status));
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
    const found = rows.find((row) => row.id === 'countermovement');
    expect(['warn', 'fail']).toContain(found?.result.status);
    const limit = found?.result.status === 'fail' ? 50 : 20;
    const said = found ? findingWords(found, dip) : '';
    expect(said).toMatch(/^A dip of \d+(\.\d)?\u00a0N before the rise, /);
    expect(said.endsWith(`at most ${limit}\u00a0N`)).toBe(true);
  });
  it('has a sentence for every check', () => {
    expect(Object.keys(dip.checks).filter((id) => !(id in en.findings))).toEqual([]);
  });
});

describe('evidence', () => {
  it('draws baseline, onset, epochs, peak and end where the result says', () => {
    const evidence = trialEvidence(good, 'N', false);
    const { events, onset } = good;
    if (!events || !onset.ok) throw new Error('a good pull has events');
    expect(evidence.bands[0]).toMatchObject({ start: onset.value.baseline.start, end: onset.value.baseline.end });
    expect(evidence.verticals.map((line) => line.at)).toEqual([onset.value.index, events.end]);
    expect(evidence.points.filter((point) => point.label?.endsWith('ms'))).toHaveLength(5);
    expect(evidence.points.some((point) => point.at === events.peak.index && point.force === events.peak.force)).toBe(
      true,
    );
  });
  it('marks an opened value and an opened check', () => {
    const value = { kind: 'metric', id: 'rfd_0_200' } as const;
    const span = highlightSpan(good, value);
    expect(span && span.end - span.start).toBeCloseTo(200, 6);
    expect(highlightEvidence(good, value, 'RFD').bands[0]).toMatchObject({ ink: 'band-pen', label: 'RFD' });
    expect(highlightEvidence(dip, { kind: 'check', id: 'countermovement' }, 'dip').points.length).toBeGreaterThan(0);
    expect(highlightEvidence(good, undefined, '').bands).toEqual([]);
  });
});

describe('history', () => {
  const entry = (id: string, kind: 'exclude' | 'undo' | 'redo', reverts?: string) => ({
    id,
    kind,
    reason: 'r',
    by: 'b',
    at: '',
    ...(reverts ? { reverts } : {}),
  });
  it('knows what is taken back as things stand, and what an undo or redo is about', () => {
    const all = [entry('1', 'exclude'), entry('2', 'undo', '1'), entry('3', 'redo', '2')] as const;
    expect([...revertedNow(all.slice(0, 2))]).toEqual(['1']);
    expect([...revertedNow(all)]).toEqual(['2']);
    expect(subjectOf(all[2], all).id).toBe('1');
  });
  it('finds the next and the previous stop', () => {
    const stops = [10, 20, 30].map((at) => ({ at, name: '' }));
    expect([
      nextStop(stops, undefined, 1)?.at,
      nextStop(stops, 20, 1)?.at,
      nextStop(stops, 20, -1)?.at,
      nextStop(stops, 30, 1),
    ]).toEqual([10, 30, 10, undefined]);
  });
});
