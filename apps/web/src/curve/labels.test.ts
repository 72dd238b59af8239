import { describe, expect, it } from 'vitest';
import { boxOf, type LabelWish, overlap, placeLabels } from './labels.ts';
import { type Mark, roughMeasure } from './scene.ts';

const bounds = { left: 0, top: 0, right: 400, bottom: 200 };
const wish = (text: string, priority: number, ...xs: number[]): LabelWish => ({
  text,
  ink: 'ink',
  priority,
  spots: xs.map((x) => ({ x, y: 20, anchor: 'start' })),
});
const texts = (marks: Mark[]) => marks.map((mark) => (mark.kind === 'text' ? mark.text : ''));
const boxes = (marks: Mark[]) =>
  marks.flatMap((mark) =>
    mark.kind === 'text'
      ? [
          boxOf(
            { x: mark.x, y: 20, anchor: mark.anchor },
            roughMeasure(mark.text, mark.size, mark.weight, mark.face),
            mark.size,
          ),
        ]
      : [],
  );

describe('placeLabels', () => {
  it('gives the more important label its first spot and moves the other', () => {
    const marks = placeLabels([wish('half rise', 1, 10, 150), wish('onset 2.012 s', 9, 10)], bounds, roughMeasure);
    expect(texts(marks)).toEqual(['onset 2.012 s', 'half rise']);
    expect(marks.map((mark) => mark.kind === 'text' && mark.x)).toEqual([10, 150]);
  });
  it('leaves a label out rather than cover another, the bounds or an obstacle', () => {
    const crowd = Array.from({ length: 12 }, (_, i) => wish(`label ${i}`, i, 10 + i * 15, 20 + i * 15));
    const marks = placeLabels(crowd, bounds, roughMeasure, [{ left: 100, top: 0, right: 140, bottom: 40 }]);
    const placed = boxes(marks);
    expect(placed.length).toBeGreaterThan(1);
    expect(placed.length).toBeLessThan(12);
    placed.forEach((a, i) => {
      expect(overlap(a, { left: 100, top: 0, right: 140, bottom: 40 })).toBe(false);
      for (const b of placed.slice(i + 1)) expect(overlap(a, b)).toBe(false);
    });
    expect(placeLabels([wish('outside', 1, 390)], bounds, roughMeasure)).toEqual([]);
  });
  it('shows what must be seen even without a free spot', () => {
    const marks = placeLabels([wish('first', 9, 10), { ...wish('onset', 5, 10), must: true }], bounds, roughMeasure);
    expect(texts(marks)).toEqual(['first', 'onset']);
  });
});
