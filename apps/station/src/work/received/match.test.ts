import { describe, expect, it } from 'vitest';
import { type Known, matchPerson, oneLetterApart } from './match.ts';

const imre: Known = { id: '1', code: 'FW-01', givenName: 'Imre', familyName: 'Oakes', birthDate: '2001-05-30' };
const tamsin: Known = { id: '2', code: 'FW-02', givenName: 'Tamsin', familyName: 'Ålund-Smith' };
const elder: Known = { id: '3', code: 'FW-03', givenName: 'Nele', familyName: 'Quist', birthDate: '1999-01-01' };
const younger: Known = { id: '4', code: 'FW-04', givenName: 'Nele', familyName: 'Quist', birthDate: '2004-02-29' };
const people = [imre, tamsin, elder, younger];
const answer = (said: object) => {
  const { match, candidates } = matchPerson({ key: 'k', row: 1, ...said }, people);
  return [match, ...candidates.map(({ person, why }) => `${person.id} ${why}`)];
};

describe('whose a row is', () => {
  it.each([
    [{ code: 'fw-01' }, ['sure', '1 code']],
    [{ code: 'FW-01', name: 'Oakes, Imre' }, ['sure', '1 code']],
    [{ name: 'Imre Oakes' }, ['sure', '1 name']],
    [{ name: 'OAKES Imre' }, ['sure', '1 name']],
    [{ name: 'Oakes, Imre' }, ['sure', '1 name']],
    [{ givenName: 'Imre', familyName: 'Oakes' }, ['sure', '1 name']],
    [{ name: 'Nele Quist', birthDate: '2004-02-29' }, ['sure', '4 name-and-birth-date']],
    [{ name: 'Alund Smith, Tamsin' }, ['doubtful', '2 spelled-alike']],
    [{ name: 'Nele Quist' }, ['doubtful', '3 same-name-twice', '4 same-name-twice']],
    [{ name: 'Imre Oakes', birthDate: '2002-01-01' }, ['doubtful', '1 birth-date-differs']],
    [{ code: 'FW-01', name: 'Tamsin Ålund-Smith' }, ['doubtful', '1 code-of-another-name', '2 name']],
    [{ code: 'FW-01', birthDate: '2002-01-01' }, ['doubtful', '1 birth-date-differs']],
    [{ name: 'I. Oakes' }, ['doubtful', '1 initial']],
    [{ name: 'Imre Oaks' }, ['doubtful', '1 one-letter']],
    [{ name: 'Mira Falk' }, ['unknown']],
    [{ code: 'FW-77' }, ['unknown']],
    [{ code: 'FW-77', name: 'Imre Oakes' }, ['sure', '1 name']],
  ])('%j', (said, want) => {
    expect(answer(said)).toEqual(want);
  });

  it('takes one letter for a slip and two for another name', () => {
    expect(oneLetterApart('oakes', 'oaks')).toBe(true);
    expect(oneLetterApart('oakes', 'oakes')).toBe(false);
    expect(oneLetterApart('oakes', 'oikez')).toBe(false);
    expect(oneLetterApart('ab', 'ba')).toBe(false);
  });
});
