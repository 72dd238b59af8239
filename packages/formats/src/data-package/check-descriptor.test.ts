import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import { describe, expect, it } from 'vitest';
import { checkDescriptor } from './check-descriptor.ts';

// The minimal valid example of methods/jumps-and-plates.md section 6.1 (Data Package Standard 2.0, datapackage.org), EX-01.
const minimal = () =>
  JSON.parse(`{"$schema":"https://datapackage.org/profiles/2.0/datapackage.json","name":"cmj-demo","version":"1.0.0",
 "created":"2025-01-31T09:00:00Z","licenses":[{"name":"CC-BY-4.0","path":"https://creativecommons.org/licenses/by/4.0/"}],
 "resources":[{"name":"trials","type":"table","path":"trials.csv","format":"csv","mediatype":"text/csv","encoding":"utf-8",
  "schema":{"fields":[{"name":"athlete","type":"string","constraints":{"required":true}},
   {"name":"tested_at","type":"datetime"},{"name":"jump_height","type":"number","unit":"m"},
   {"name":"peak_force","type":"number","unit":"N"}],"primaryKey":["athlete","tested_at"]}}]}`);

const schema = JSON.parse(
  readFileSync(new URL('../../../../testdata/data-package/datapackage-musts.schema.json', import.meta.url), 'utf8'),
);
const ajv = new Ajv({ strict: false });
(addFormats as unknown as (ajv: Ajv) => void)(ajv);
const keepsSchema = ajv.compile(schema);

type Doc = ReturnType<typeof minimal>;
const broken: [string, (doc: Doc) => void, boolean][] = [
  ['no resources', (doc) => delete doc.resources, true],
  ['empty resources', (doc) => doc.resources.splice(0), true],
  ['duplicate resource names', (doc) => doc.resources.push({ name: 'trials', path: 'b.csv' }), false],
  ['both path and data', (doc) => Object.assign(doc.resources[0], { data: [] }), true],
  ['neither path nor data', (doc) => delete doc.resources[0].path, true],
  ['a field without name', (doc) => delete doc.resources[0].schema.fields[1].name, true],
  ['a path that leaves the package', (doc) => Object.assign(doc.resources[0], { path: '../x.csv' }), true],
  ['an absolute path', (doc) => Object.assign(doc.resources[0], { path: '/x.csv' }), true],
  ['two fields of one name', (doc) => Object.assign(doc.resources[0].schema.fields[1], { name: 'athlete' }), false],
  ['a licence without name and path', (doc) => Object.assign(doc, { licenses: [{ title: 'x' }] }), true],
  ['a day where an instant belongs', (doc) => Object.assign(doc, { created: '2025-01-31' }), true],
  ['a contributor that says nothing', (doc) => Object.assign(doc, { contributors: [{}] }), true],
];

describe('descriptors of Data Packages', () => {
  it('EX-01 accepts the minimal example', () => {
    expect(checkDescriptor(minimal())).toEqual([]);
    expect(keepsSchema(minimal())).toBe(true);
  });

  it.each(broken)('EX-01 refuses %s', (_, breakIt, inSchema) => {
    const doc = minimal();
    breakIt(doc);
    expect(checkDescriptor(doc)).toHaveLength(1);
    if (inSchema) expect(keepsSchema(doc)).toBe(false);
  });

  it('refuses what is no object', () => {
    for (const value of [null, 3, 'x', [], undefined]) expect(checkDescriptor(value)).toHaveLength(1);
  });
});
