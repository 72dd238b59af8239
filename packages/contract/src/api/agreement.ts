import { z } from 'zod';

const estimate = z.object({ value: z.number(), low: z.number(), high: z.number(), level: z.number() });
const lacking = z.object({ ok: z.literal(false), reason: z.string() });
const orNone = <T extends z.ZodType>(value: T) => z.union([z.object({ ok: z.literal(true), value }), lacking]);
const line = z.object({ n: z.number(), slope: estimate, intercept: estimate });

/** What docs/reference/statistics.md says of the agreement of two methods; differences are second less first. */
export const agreementFound = z.object({
  n: z.number(),
  level: z.number(),
  limits: orNone(z.object({ n: z.number(), bias: estimate, sd: z.number(), lower: estimate, upper: estimate })),
  proportional: orNone(
    z.object({
      line: z.object({ slope: z.number(), intercept: z.number(), p: z.number().optional() }),
      spread: z.object({ r: z.number(), p: z.number() }),
    }),
  ),
  leastProducts: orNone(line.extend({ r: z.number() })),
  /** Only where there are few enough pairs to fit them. */
  deming: orNone(line).optional(),
  passingBablok: orNone(line).optional(),
  bias: z.object({ fixed: z.boolean(), proportional: z.boolean() }).optional(),
  small: z.boolean(),
});

export type AgreementFound = z.infer<typeof agreementFound>;
