import { expect, it } from 'vitest';
import { inSentence } from './title.ts';

it('begins small in a sentence, an abbreviation does not', () => {
  expect(inSentence('Peak force')).toBe('peak force');
  expect(inSentence('RFD 0 to 200 ms')).toBe('RFD 0 to 200 ms');
  expect(inSentence('Net force at 50 ms')).toBe('net force at 50 ms');
});
