import { describe, expect, it } from 'vitest';
import { ageOn } from '../src/build/minors.ts';
import { athleteReport, sessionReport, squadReport } from '../src/index.ts';
import { datesOf } from '../src/text/dates.ts';
import { page, textOf } from './documents.ts';
import { eight, frame, log, oona, youngOona } from './fernwater.ts';

const dates = datesOf('en', 'Europe/Vienna');
const mass = { ...oona.metric, id: 'peak_force_relative', unit: 'N/kg' };

describe('somebody under 18', () => {
  it('is so until the birthday, on the day of the place', () => {
    expect(ageOn('2008-07-16', '2026-07-15T21:59:00.000Z', dates)).toBe('minor');
    expect(ageOn('2008-07-16', '2026-07-15T22:01:00.000Z', dates)).toBe('adult');
    expect(ageOn(undefined, '2026-07-15T22:01:00.000Z', dates)).toBe('unknown');
    expect(ageOn('', '2026-07-15T22:01:00.000Z', dates)).toBe('unknown');
  });

  it('gets no page of a value that tells body mass', () => {
    for (const metric of [mass, { ...oona.metric, id: 'body_mass', unit: 'kg' }, { ...oona.metric, id: 'body_weight' }])
      expect(athleteReport({ ...youngOona, metric }, frame)).toEqual({ withheld: 'mass-of-minor' });
    expect(athleteReport({ ...oona, metric: mass }, frame)).not.toHaveProperty('withheld');
    const unknown = { ...oona, metric: mass, person: { name: 'Pál Szőke', code: 'FW03' } };
    expect(athleteReport(unknown, frame)).toEqual({ withheld: 'mass-of-minor' });
    expect(athleteReport(unknown, { ...frame, unknownAge: 'as-adult' })).not.toHaveProperty('withheld');
  });

  it('has a page that says so, and says so too where the age is not known', () => {
    expect(textOf(page(youngOona))).toContain('Under 18');
    expect(textOf(page({ ...oona, person: { name: 'Pál Szőke', code: 'FW03' } }))).toContain('No birth date is kept');
    expect(textOf(page())).not.toContain('Under 18');
  });

  it('has no weight in the log of a session', () => {
    const adult = textOf(sessionReport(log, frame));
    expect(adult).toContain('702');
    const young = textOf(sessionReport({ ...log, person: youngOona.person }, frame));
    expect(young).not.toContain('702');
    expect(young).toContain('not printed: under 18');
  });

  it('has no place in a squad, and is left out of a table of masses', () => {
    const rows = (metric = eight.metric) =>
      squadReport({ ...eight, metric }, frame).blocks.flatMap((block) =>
        block.kind === 'table' ? block.table.rows : [],
      );
    const z = (name: string) => rows().find(([first]) => first?.text.startsWith(name))?.[3];
    expect(z('=SUM(A1) Bexley')).toEqual({ text: '+1.2', value: 1.21 });
    expect(z('Young Oona')).toEqual({ text: '' });
    expect(textOf(squadReport(eight, frame))).not.toContain('1.37');
    const masses = textOf(squadReport({ ...eight, metric: { ...mass, title: 'Peak force per kg' } }, frame));
    expect(masses).not.toContain('Young Oona');
    expect(masses).toContain('1 athlete is left out');
    // One sure word among those shown; the chance of the one who is left out does not count.
    expect(masses).toContain('1 is called stronger or weaker; by chance alone <0.1 such words');
  });
});
