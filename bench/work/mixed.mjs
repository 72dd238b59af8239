import { readFileSync } from 'node:fs';
import { mixedModel } from '@sthene/core/stats';
import { say } from './say.mjs';

// A squad's sessions as JSON: y, time, person. Fits level and slope of each athlete by REML, several times.
const [file, passes] = process.argv.slice(2);
const { y, time, person } = JSON.parse(readFileSync(file, 'utf8'));
const columns = { y, person, fixed: [{ name: 'time', values: time }], random: { kind: 'person-and-slope', time } };
mixedModel(columns);
const began = performance.now();
let found;
for (let i = 0; i < Number(passes); i++) found = mixedModel(columns);
const work = (performance.now() - began) / Number(passes);
if (!found.ok) throw new Error(found.reason);
say({
  work,
  residual: found.value.residual.value,
  df: found.value.residual.df,
});
