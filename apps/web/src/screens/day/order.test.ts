import { describe, expect, it } from 'vitest';
import { droppedAt, gapAt, movedBy, movedTo } from './order.ts';

const ids = ['a', 'b', 'c', 'd'];

describe('running order', () => {
  it('moves by places and stops at the ends', () => {
    expect(movedBy(ids, 'b', 1)).toEqual(['a', 'c', 'b', 'd']);
    expect(movedBy(ids, 'b', -1)).toEqual(['b', 'a', 'c', 'd']);
    expect(movedBy(ids, 'a', -1)).toBe(ids);
    expect(movedBy(ids, 'c', 9)).toEqual(['a', 'b', 'd', 'c']);
    expect(movedBy(ids, 'nobody', 1)).toBe(ids);
  });
  it('keeps everyone exactly once wherever one is put', () => {
    for (const id of ids)
      for (let place = -2; place < 7; place++) {
        const moved = movedTo(ids, id, place);
        expect([...moved].sort()).toEqual(ids);
        expect(moved.indexOf(id)).toBe(Math.min(3, Math.max(0, place)));
      }
  });
  it('finds the gap a pointer is over', () => {
    const middles = [20, 60, 100, 140];
    expect(gapAt(middles, 0)).toBe(0);
    expect(gapAt(middles, 61)).toBe(2);
    expect(gapAt(middles, 500)).toBe(4);
  });
  it('drops into a gap; the two gaps around itself change nothing', () => {
    expect(droppedAt(ids, 'b', 1)).toBe(ids);
    expect(droppedAt(ids, 'b', 2)).toBe(ids);
    expect(droppedAt(ids, 'b', 0)).toEqual(['b', 'a', 'c', 'd']);
    expect(droppedAt(ids, 'b', 4)).toEqual(['a', 'c', 'd', 'b']);
    expect(droppedAt(ids, 'd', 1)).toEqual(['a', 'd', 'b', 'c']);
  });
});
