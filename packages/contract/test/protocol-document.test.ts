import { builtInProtocols, type ProtocolDocument, protocolFields, usualProtocol, validateProtocol } from '@sthene/core';
import { expect, expectTypeOf, it } from 'vitest';
import { z } from 'zod';
import { type ProtocolFile, protocolDocument } from '../src/index.ts';

const usual = usualProtocol('imtp');

function changed(path: string, value: unknown): unknown {
  const copy = structuredClone(usual) as never;
  const keys = path.split('.');
  let at: Record<string, unknown> = copy;
  for (const key of keys.slice(0, -1)) at = at[key] as Record<string, unknown>;
  at[keys.at(-1) as string] = value;
  return copy;
}

it('is what core takes for a protocol', () => {
  expectTypeOf<ProtocolFile['warmUp']['efforts'][number]>().toEqualTypeOf<{
    share: number;
    band: number;
    weightShare: number;
  }>();
  expectTypeOf<keyof ProtocolFile>().toEqualTypeOf<keyof ProtocolDocument>();
  for (const { document } of builtInProtocols.all) expect(protocolDocument.parse(document)).toEqual(document);
});

it('keeps the same limits as core, on both sides', () => {
  for (const { path, low, high, whole } of protocolFields) {
    const at = path.replace('*', '0');
    for (const value of [low, high, low - 0.001, high + 0.001, ...(whole ? [low + 0.5] : [])]) {
      const document = changed(at, value);
      const outcome = validateProtocol(document);
      const limits = outcome.ok || outcome.faults.every(({ code }) => code === 'protocol-order-wrong');
      expect(protocolDocument.safeParse(document).success, `${at} ${value}`).toBe(limits);
    }
  }
});

// Made from the schema above: `npx vitest run -u packages/contract/test/protocol-document.test.ts`.
it('is the JSON schema of the reference', async () => {
  const schema = { $id: 'sthene.protocol/1', title: 'Protocol of a test', ...z.toJSONSchema(protocolDocument) };
  await expect(`${JSON.stringify(schema, null, 1)}\n`).toMatchFileSnapshot(
    '../../../docs/reference/protocol-format.schema.json',
  );
});
