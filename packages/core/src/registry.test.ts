import { describe, expect, it } from 'vitest';
import { registry } from './registry.ts';

describe('registry', () => {
  it('keeps the order and finds by id', () => {
    const list = registry('thing', [{ id: 'b' }, { id: 'a' }]);
    expect(list.all.map(({ id }) => id)).toEqual(['b', 'a']);
    expect(list.get('a')).toEqual({ id: 'a' });
    expect(list.get('c')).toBeUndefined();
    expect(list.has('b')).toBe(true);
  });

  it('throws at start when an id stands twice', () => {
    expect(() => registry('thing', [{ id: 'a' }, { id: 'a' }])).toThrow('The thing "a" is listed twice.');
  });
});
