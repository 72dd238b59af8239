import type { LiveVerdict } from '@sthene/contract';
import type { PlotBox } from '../../curve/grid.ts';
import type { Mark, Measure } from '../../curve/scene.ts';
import { liveWords } from '../../words/live.ts';

const nameSize = 14;

const shown = ['onset', 'peak', 'end', 'takeOff', 'touchdown'] as const;

/** Where an effort began, peaked and ended, or a jump left the ground and came back: an upright line, a point on the curve, its name. */
export function evidenceMarks(
  evidence: Pick<LiveVerdict['evidence'], (typeof shown)[number]>,
  box: PlotBox,
  at: (index: number) => { readonly x: number; readonly y: number } | undefined,
  measure: Measure,
): Mark[] {
  const marks: Mark[] = [];
  /** Where the names end that stand already. */
  let taken = Number.NEGATIVE_INFINITY;
  for (const which of shown) {
    const index = evidence[which];
    const point = index === undefined ? undefined : at(index);
    if (point === undefined || point.x < box.left || point.x > box.right) continue;
    const { x, y } = point;
    marks.push({ kind: 'lines', at: [x, box.top, x, box.bottom], stroke: { ink: 'pen', width: 1.5, dash: [4, 4] } });
    marks.push({ kind: 'dot', x, y, radius: 5, fill: 'panel', stroke: { ink: 'pen', width: 2 } });
    // Near the edge the name stands on the other side of its line.
    const before = x > box.right - 44;
    const width = measure(liveWords[which], nameSize, 650, 'sans');
    const from = before ? x - 6 - width : x + 6;
    // Two that would cover each other: the line of the second says enough.
    if (from < taken + 4) continue;
    taken = from + width;
    marks.push({
      kind: 'text',
      x: before ? x - 6 : x + 6,
      y: box.bottom - 10,
      text: liveWords[which],
      anchor: before ? 'end' : 'start',
      ink: 'pen',
      size: nameSize,
      weight: 650,
      face: 'sans',
      halo: true,
    });
  }
  return marks;
}
