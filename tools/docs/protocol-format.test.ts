import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, it } from 'vitest';
import { builtInProtocols, validateProtocol } from '../../packages/core/src/index.ts';
import { protocolPage, protocolPageWith } from './protocol-format.ts';

const text = readFileSync(protocolPage, 'utf8');

it('says every field, fault and advice as the program has them', () => {
  expect(text, 'Run: npx tsx --conditions=source tools/docs/protocol-format.ts').toBe(protocolPageWith(text));
});

it('has an example that is a protocol, and a schema that takes it and every built-in one', () => {
  const file = new URL('../../docs/reference/protocol-format.schema.json', import.meta.url);
  const schema = new Ajv2020({ strict: false }).compile(JSON.parse(readFileSync(file, 'utf8')));
  const examples = [...text.matchAll(/```json\n([\s\S]*?)```/gu)].map(
    ([, json]) => JSON.parse(json as string) as unknown,
  );
  expect(examples).toHaveLength(1);
  for (const one of [...examples, ...builtInProtocols.all.map(({ document }) => document)]) {
    expect(validateProtocol(one)).toMatchObject({ ok: true });
    expect(schema(one)).toBe(true);
  }
  expect(schema({ ...builtInProtocols.all[0]?.document, colour: 'red' })).toBe(false);
});
