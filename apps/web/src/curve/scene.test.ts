import { describe, expect, it } from 'vitest';
import { curveCsv } from './csv.ts';
import { figureScene } from './figure.ts';
import { forceDomain, mainScene } from './main-scene.ts';
import { balanceOf, type CurveModel, noEvidence } from './model.ts';
import { paintSvg } from './paint-svg.ts';
import { exportPalette } from './palette.ts';
import { Pyramid } from './pyramid.ts';
import { type Mark, roughMeasure } from './scene.ts';
import { balanceScene, overviewScene } from './strip-scenes.ts';

/** 4 s at 1 kHz: 700 N, a pull to 2500 N from 1 s to 3 s, ten samples missing at 2 s. */
function model(change: Partial<CurveModel> = {}): CurveModel {
  const total = Float64Array.from({ length: 4000 }, (_, i) => (i < 1000 ? 700 : i < 3000 ? 2500 : 60));
  const left = total.map((value) => value * 0.48);
  const right = total.map((value) => value * 0.52);
  const open = [{ start: 2000, end: 2010 }];
  const common = { rate: 1000, start: 0, breaks: open };
  return {
    rate: 1000,
    samples: 4000,
    start: 0,
    unit: 'N',
    timeTitle: 'time, s',
    forceTitle: 'force, N',
    series: [
      { ...common, id: 'total', name: 'total', letter: 'Total', ink: 'ink', width: 1.8, pyramid: new Pyramid(total) },
      {
        ...common,
        id: 'left',
        name: 'left',
        letter: 'L',
        ink: 'left',
        dash: [8, 3],
        width: 1.7,
        pyramid: new Pyramid(left),
      },
      {
        ...common,
        id: 'right',
        name: 'right',
        letter: 'R',
        ink: 'right',
        dash: [2, 2],
        width: 1.7,
        pyramid: new Pyramid(right),
      },
    ],
    gaps: { open, filled: [] },
    evidence: {
      ...noEvidence,
      bands: [{ start: 0, end: 900, ink: 'band', label: 'baseline 700 N, SD 0' }],
      verticals: [{ at: 1000, ink: 'pen', label: 'onset 1.000 s', priority: 100 }],
      points: [{ at: 1500, force: 2500, ink: 'ink', label: 'peak 2500 N', place: 'above', priority: 90 }],
    },
    balance: balanceOf(left, right, open, { start: 1000, end: 3000 }),
    gapWords: (ms) => `no samples for ${ms} ms`,
    ...change,
  };
}
const input = (change: Partial<Parameters<typeof mainScene>[0]> = {}) => ({
  model: model(),
  view: { from: 0, to: 3.999 },
  width: 800,
  height: 400,
  forceFit: 'whole' as const,
  overlay: {},
  measure: roughMeasure,
  ...change,
});
const flat = (marks: readonly Mark[]): Mark[] => marks.flatMap((mark) => ('marks' in mark ? flat(mark.marks) : [mark]));
const words = (marks: readonly Mark[]) => flat(marks).flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));

describe('mainScene', () => {
  it.each([600, 3400])('keeps the label of the onset at %i ms whole on a narrow screen', (at) => {
    const label = 'onset 1.000 s, 5 SD from standing, 30 ms earlier';
    const evidence = { ...noEvidence, verticals: [{ at, ink: 'pen' as const, label, priority: 100 }] };
    const { scene, box } = mainScene(input({ model: model({ evidence }), width: 430 }));
    const text = flat(scene.marks).find((mark) => mark.kind === 'text' && mark.text === label);
    if (text?.kind !== 'text') throw new Error('the label is not there');
    const width = roughMeasure(label, text.size, text.weight, text.face);
    const left = text.anchor === 'start' ? text.x : text.x - width;
    expect(left).toBeGreaterThanOrEqual(box.left);
    expect(left + width).toBeLessThanOrEqual(box.right);
  });
  it('draws total, left and right once per unbroken piece and never across the gap', () => {
    const { scene, x } = mainScene(input());
    const lines = flat(scene.marks).flatMap((mark) =>
      mark.kind === 'path' && mark.stroke && !mark.fill ? [mark] : [],
    );
    expect(lines.map((line) => line.stroke?.ink)).toEqual(['right', 'right', 'left', 'left', 'ink', 'ink']);
    const [from, to] = [x.at(1.9995), x.at(2.0095)];
    for (const line of lines) {
      const inside = line.points.filter((px, i) => i % 2 === 0 && px > from && px < to);
      expect(inside).toEqual([]);
    }
  });
  it('labels onset, peak, baseline, gap, letters and axes', () => {
    const said = words(mainScene(input()).scene.marks);
    for (const text of [
      'onset 1.000 s',
      'peak 2500 N',
      'baseline 700 N, SD 0',
      'no samples for 10 ms',
      'L',
      'R',
      'time, s',
      'force, N',
      '2500',
    ])
      expect(said).toContain(text);
  });
  it('puts instants and forces where the axes say', () => {
    const { scene, x, y } = mainScene(input());
    const dot = flat(scene.marks).find((mark) => mark.kind === 'dot');
    expect(dot).toMatchObject({ x: x.at(1.5), y: y.at(2500) });
    expect(x.at(0)).toBe(56);
    expect(x.at(3.999)).toBe(786);
  });
  it('keeps the force axis while panning and fits it to the window when asked', () => {
    const whole = forceDomain(model(), { from: 0, to: 0.5 }, 'whole', 300);
    expect(whole).toEqual(forceDomain(model(), { from: 2, to: 4 }, 'whole', 300));
    expect(whole[0]).toBe(0);
    expect(whole[1]).toBeGreaterThan(2500);
    const [low, high] = forceDomain(
      model({ series: model().series.slice(0, 1) }),
      { from: 0.1, to: 0.5 },
      'window',
      300,
    );
    expect(low).toBeLessThan(700);
    expect(low).toBeGreaterThanOrEqual(600);
    expect(high).toBeGreaterThan(700);
    expect(high).toBeLessThanOrEqual(800);
  });
  it('shows markers and the movable onset', () => {
    const said = words(mainScene(input({ overlay: { a: 1000, b: 1200, draft: 990, cursor: 500 } })).scene.marks);
    expect(said).toContain('A');
    expect(said).toContain('B');
  });
});

describe('balance', () => {
  it('is 100 (R - L) / (R + L) where loaded, and nothing where not or where samples are missing', () => {
    const { balance } = model();
    expect(balance?.pyramid.values[1500]).toBeCloseTo(4, 12);
    expect(balance?.pyramid.values[3500]).toBeNaN();
    expect(balance?.breaks).toEqual([
      { start: 2000, end: 2010 },
      { start: 3000, end: 4000 },
    ]);
    expect(balance?.limit).toBe(5);
  });
  it('fills right above the middle and left below', () => {
    const scene = balanceScene(model(), { from: 0, to: 3.999 }, 800, 64);
    const areas = flat(scene.marks).flatMap((mark) => (mark.kind === 'path' && mark.fill ? [mark] : []));
    const right = areas.filter((area) => area.fill === 'right');
    expect(right.length).toBe(2);
    const tops = right[0]?.points.filter((_, i) => i % 2 === 1) ?? [];
    expect(Math.min(...tops)).toBeLessThan(32);
    expect(words(scene.marks)).toEqual(['R 5\u2009%', 'L 5\u2009%']);
  });
});

describe('overviewScene', () => {
  it('frames the visible window', () => {
    const frame = overviewScene(model(), { from: 1, to: 2 }, 856, 46).marks.find(
      (mark) => mark.kind === 'rect' && mark.stroke?.ink === 'pen',
    );
    const wide = (856 - 14 - 56) / 3.999;
    expect(frame).toMatchObject({ x: 56 + wide });
    expect(frame?.kind === 'rect' && frame.width).toBeCloseTo(wide, 9);
  });
});

describe('export', () => {
  const figure = figureScene({
    ...input(),
    overlay: { cursor: 700, a: 1000 },
    balanceHeight: 64,
    caption: ['FW-07. Mid-thigh pull & more.'],
  });
  const svg = paintSvg(figure, exportPalette, { title: 'Force <curve>', description: 'A & B' });
  it('carries the same lines as the screen, a caption and a legend', () => {
    const screen = flat(mainScene(input({ overlay: { a: 1000 } })).scene.marks).filter((mark) => mark.kind === 'path');
    const drawn = flat(figure.marks).filter((mark) => mark.kind === 'path');
    for (const mark of screen) expect(drawn).toContainEqual(mark);
    expect(words(figure.marks)).toContain('FW-07. Mid-thigh pull & more.');
    expect(words(figure.marks).filter((text) => text === 'left')).toHaveLength(1);
  });
  it('is well-formed, escaped, in plain colours, and without a cursor', () => {
    expect(svg).toContain('<title>Force &lt;curve&gt;</title>');
    expect(svg).toContain('Mid-thigh pull &amp; more.');
    expect(svg).not.toMatch(/var\(|currentColor|NaN|undefined/);
    expect(svg.match(/<g /g)?.length).toBe(svg.match(/<\/g>/g)?.length);
    expect(svg).toContain('stroke-dasharray="8 3"');
    const cursor = flat(figure.marks).filter((mark) => mark.kind === 'dot' && mark.radius === 2.6);
    expect(cursor).toEqual([]);
  });
  it('gives the drawn samples as text that reads back to the same numbers', () => {
    const lines = curveCsv(model(), { from: 1.998, to: 2.012 }).trim().split('\n');
    expect(lines[0]).toBe('time_s,left_n,right_n,total_n');
    expect(lines).toHaveLength(16);
    expect(lines[1]).toBe('1.998,1200,1300,2500');
    expect(lines[3]).toBe('2,,,');
    const third = model().series[1]?.pyramid.values[1999];
    expect(Number(lines[2]?.split(',')[1])).toBe(third);
  });
  it('names the time column for the axis that is shown', () => {
    const aligned = model({ start: -1, series: model().series.map((series) => ({ ...series, start: -1 })) });
    const lines = curveCsv(aligned, { from: 0, to: 0.002 }).trim().split('\n');
    expect(lines[0]).toBe('time_from_onset_s,left_n,right_n,total_n');
    expect(lines.slice(1).map((line) => line.split(',')[0])).toEqual(['0', '0.001', '0.002']);
  });
});
