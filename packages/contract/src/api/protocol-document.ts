import { protocolField, protocolRegistry, protocolSizes as sizes } from '@sthene/core';
import { z } from 'zod';

/** A number of the catalogue, with the limits that core keeps. */
function number(path: string) {
  const field = protocolField(path);
  if (field === undefined) throw new Error(`No field ${path}.`);
  const kept = field.whole ? z.number().int() : z.number();
  return kept.min(field.low).max(field.high).describe(`${field.title}. ${field.does}`);
}

const text = (most: number) => z.string().regex(/\S/u).max(most);
const version = z.number().int().min(1);
const sha256 = z.string().regex(/^[\da-f]{64}$/u);

/**
 * A protocol as a file: the shape of core's `ProtocolDocument`, which `validateProtocol` judges further. A test keeps the two and
 * the JSON schema of the reference equal.
 */
export const protocolDocument = z.strictObject({
  schema: z.literal('sthene.protocol/1'),
  name: text(sizes.name),
  version,
  summary: z.string().max(sizes.summary).describe('One sentence for people; not part of the hash.'),
  note: z.string().max(sizes.note).describe('Why this version was made; not part of the hash.'),
  succeeds: z.strictObject({ version, sha256 }).optional(),
  test: z.strictObject({ id: z.enum(protocolRegistry.all.map(({ id }) => id) as [string, ...string[]]), version }),
  warmUp: z.strictObject({
    steps: z.array(text(sizes.step)).max(sizes.steps),
    confirm: z.boolean(),
    efforts: z
      .array(
        z.strictObject({
          share: number('warmUp.efforts.*.share'),
          band: number('warmUp.efforts.*.band'),
          weightShare: number('warmUp.efforts.*.weightShare'),
        }),
      )
      .max(sizes.efforts),
    rest: number('warmUp.rest'),
  }),
  maximal: z.strictObject({
    minimum: number('maximal.minimum'),
    planned: number('maximal.planned'),
    maximum: number('maximal.maximum'),
  }),
  rest: z.strictObject({ minimum: number('rest.minimum'), maximum: number('rest.maximum') }),
  cue: z.strictObject({
    words: text(sizes.words),
    voice: z.enum(['tone', 'spoken']),
    count: number('cue.count'),
    delay: number('cue.delay'),
  }),
  pull: z.strictObject({
    seconds: number('pull.seconds'),
    warnUnder: number('pull.warnUnder'),
    failUnder: number('pull.failUnder'),
  }),
  extraTrial: z.strictObject({
    difference: number('extraTrial.difference'),
    share: number('extraTrial.share').optional(),
    minorShare: number('extraTrial.minorShare'),
  }),
  stop: z.strictObject({
    rejectedInARow: number('stop.rejectedInARow'),
    fall: number('stop.fall').optional(),
    act: z.enum(['advise', 'close']),
  }),
  checks: z.record(
    z.string(),
    z.strictObject({ use: z.boolean(), limits: z.record(z.string(), z.number().min(0).max(1e6)).optional() }),
  ),
  setupFields: z
    .array(
      z.strictObject({
        id: z.string().regex(/^[a-z][a-z0-9_]{0,39}$/u),
        title: text(sizes.fieldTitle),
        unit: text(12).optional(),
        kind: z.enum(['number', 'choice', 'text', 'yes-no']),
        choices: z.array(text(sizes.choice)).max(sizes.choices).optional(),
        required: z.boolean(),
      }),
    )
    .max(sizes.setupFields),
  localRules: z.array(text(sizes.localRule)).max(sizes.localRules),
});

/** A protocol in JSON. */
export type ProtocolFile = z.infer<typeof protocolDocument>;
