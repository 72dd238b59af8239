import { expect, it } from 'vitest';
import { pushOffEntry } from './push-off.ts';

it.each([
  ['', ''],
  ['  ', ''],
  ['38', '38'],
  ['38,5', '38.5'],
  [' 10 ', '10'],
  ['80', '80'],
])('takes %j', (text, value) => {
  expect(pushOffEntry(text)).toEqual({ ok: true, value });
});

it.each(['9.9', '80.5', '0.38', '-38', '38 cm', 'long', '1,2,3', '380', 'NaN'])('says no to %j', (text) => {
  expect(pushOffEntry(text)).toEqual({ ok: false });
});
