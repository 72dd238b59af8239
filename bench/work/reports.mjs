// Makes pages of athletes: node reports.mjs COUNT FOLDER
import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { defaultMethod, methodReference } from '@sthene/core';
import { athleteReport, htmlOf, pdfOf } from '@sthene/report';
import { say } from './say.mjs';

const [, , count, folder] = process.argv;
const frame = {
  language: 'en',
  lab: { name: 'Fernwater Rowing Club' },
  demo: false,
  software: 'Sthene',
  zone: 'UTC',
  unknownAge: 'as-minor',
};

/** An invented athlete with ten sessions; the number makes each page another one. */
function pageOf(number) {
  const values = Array.from({ length: 10 }, (_, i) => 2600 + 45 * i + ((number * 37 + i * 53) % 90));
  const [before, now] = values.slice(-2);
  return athleteReport(
    {
      person: { name: `Athlete ${number}`, code: `FW${number}`, birthDate: '1999-03-02' },
      test: 'imtp',
      metric: { id: 'peak_force', title: 'Peak force', unit: 'N', formula: 'F_p', source: '', better: 'higher' },
      sessions: values.map((value, i) => ({
        id: `s${i}`,
        at: new Date(Date.UTC(2025, i, 3, 8)).toISOString(),
        value,
        unit: 'N',
        n: 3,
        maximal: 4,
        sd: 31.5,
        familiarisation: i === 0,
        unlike: i % 4 === 1 ? ['Bar height above the plates'] : [],
      })),
      scale: 'log',
      noise: { used: { value: 1.9, df: 13 }, worthwhile: 1.2 },
      best: 's9',
      changes: [
        {
          reference: 'last',
          sessions: ['s8'],
          value: before,
          difference: now - before,
          percent: (100 * (now - before)) / before,
          band: { low: before - 170, high: before + 170, level: 0.95 },
          intervals: [0.5, 0.9, 0.95].map((level) => ({ low: -100 * level, high: 200 * level, level })),
          more: 0.4,
          less: 0.1,
          within: 0.5,
          detectable: 170,
          word: "inside the test's noise",
          alike: "inside the test's noise",
          unlike: [],
          byChance: 0.03,
          confirmable: 240,
        },
      ],
      against: 'last',
      made: { methods: [{ ...methodReference(defaultMethod), document: defaultMethod }], sampleRates: [1000] },
    },
    frame,
  );
}

const pages = Array.from({ length: Number(count) }, (_, i) => pageOf(i + 1));
for (const [i, page] of pages.entries()) writeFileSync(join(folder, `page-${i + 1}.html`), htmlOf(page));
// The first page reads the fonts; on the other side the browser is open before the clock starts.
const once = await pdfOf(pages[0], 'A4');
const began = performance.now();
let bytes = 0;
for (const page of pages) bytes += (await pdfOf(page, 'A4')).length;
const work = performance.now() - began;
const hash = (one) => createHash('sha256').update(one).digest('hex');
const again = await pdfOf(pages[0], 'A4');
if (hash(once) !== hash(again)) throw new Error('The same page was not the same bytes.');
writeFileSync(join(folder, 'ours.pdf'), once);
say({ work, bytes });
