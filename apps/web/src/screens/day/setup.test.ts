import { protocolRegistry } from '@sthene/core';
import { expect, it } from 'vitest';
import { draftOf, setupOf } from './setup.ts';

const fields = protocolRegistry.get('imtp')?.setupFields ?? [];
const setup = {
  bar_height: 68.5,
  knee_angle: 135,
  grip: 'clean',
  belt: false,
  familiarisation: true,
  older_field: 'kept',
};

it('comes back from its fields as it was, fields of other tests included', () => {
  expect(setupOf(fields, draftOf(fields, setup), setup)).toEqual({ setup, wrong: [] });
});

it('reads a decimal comma, drops what is emptied, and names a number that is none', () => {
  const draft = { ...draftOf(fields, setup), bar_height: '70,5', grip: ' ', knee_angle: 'bent' };
  const made = setupOf(fields, draft, setup);
  expect(made.setup).toEqual({ bar_height: 70.5, belt: false, familiarisation: true, older_field: 'kept' });
  expect(made.wrong).toEqual(['knee_angle']);
});
