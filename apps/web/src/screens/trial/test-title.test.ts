import { expect, it } from 'vitest';
import { sessionTitle } from './test-title.ts';

it('names what was carried, as it was written down, and nothing where nothing was', () => {
  const loaded = 'countermovement-jump-loaded';
  expect(sessionTitle({ protocol: loaded, load: 40 })).toBe('Countermovement jump, loaded, 40\u00a0kg');
  expect(sessionTitle({ protocol: loaded, load: 42.5 })).toBe('Countermovement jump, loaded, 42.5\u00a0kg');
  expect(sessionTitle({ protocol: loaded })).toBe('Countermovement jump, loaded');
  expect(sessionTitle({ protocol: 'imtp' })).toBe('Isometric mid-thigh pull');
});
