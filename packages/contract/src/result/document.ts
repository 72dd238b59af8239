import { z } from 'zod';
import { jumpKind, jumpPhase, methodReference, spread, verdict } from './trial.ts';

const metric = z.union([
  z.object({ value: z.number(), unit: z.string(), exponent: z.number().optional() }),
  z.object({ reason: z.string() }),
]);

const check = z.object({
  status: z.enum(['pass', 'warn', 'fail', 'not-judged']),
  value: z.number().optional(),
  limit: z.number().optional(),
  unit: z.string(),
  reason: z.string().optional(),
});

const instant = z.object({ index: z.number(), time_s: z.number() });

/** An event, or why it could not be found. */
const eventOrReason = <T extends z.ZodType>(event: T) => z.union([event, z.object({ reason: z.string() })]);

const trial = z.object({
  test: z.string(),
  method: methodReference.extend({
    derived_from: z
      .object({
        name: z.string(),
        version: z.number(),
        sha256: z.string(),
        changes: z.record(z.string(), z.union([z.number(), z.string()])),
      })
      .optional(),
  }),
  span: z.object({ start: z.number(), end: z.number() }),
  reason: z.string().optional(),
  events: z.object({
    baseline: eventOrReason(z.object({ start: z.number(), end: z.number(), mean_n: z.number(), sd_n: z.number() })),
    onset: eventOrReason(instant.extend({ threshold_n: z.number(), rule: z.string() })),
    peak: eventOrReason(instant),
    end: eventOrReason(instant),
  }),
  /** Instants of a jump, in jump tests. `baseline` is then the weighing window, `end` the end of the landing. */
  jump: z
    .object({
      kind: jumpKind,
      threshold_n: z.number(),
      threshold_rule: z.string(),
      zero_offset_n: z.number(),
      first_touchdown: instant.optional(),
      peak_negative_velocity: instant.optional(),
      lowest_position: instant.optional(),
      propulsion_start: instant.optional(),
      take_off: instant,
      touchdown: instant,
      end_of_landing: instant.optional(),
      contacts: z.array(z.object({ touchdown: instant, take_off: instant, next_touchdown: instant })),
      phases: z.array(
        z.object({
          id: jumpPhase,
          definition: z.string(),
          start: z.number(),
          end: z.number(),
        }),
      ),
    })
    .optional(),
  body_weight: eventOrReason(
    z.object({ value: z.number(), unit: z.string(), from: z.enum(['baseline', 'weighing', 'given']) }),
  ),
  metrics: z.record(z.string(), metric),
  checks: z.record(z.string(), check),
  spread: z.record(z.string(), spread),
  verdict,
});

/**
 * The document `sthene analyze --json` prints and an export carries. Numbers in full double precision; `index` is 0-based
 * from the first sample of the file; window `end` is exclusive. Forces of a test without body weight carry their own unit
 * in the metrics; the `_n` event fields are then in that unit.
 */
export const resultDocument = z.object({
  schema: z.literal('sthene.result/1'),
  app: z.string(),
  recordings: z.array(
    z.object({
      file: z.string(),
      label: z.string().optional(),
      sha256: z.string(),
      rate_hz: z.number(),
      samples: z.number(),
      notices: z.array(z.object({ code: z.string(), message: z.string() })),
      trials: z.array(trial),
    }),
  ),
  errors: z.array(z.object({ file: z.string(), code: z.string(), message: z.string() })),
});

export type ResultDocument = z.infer<typeof resultDocument>;
export type TrialDocument = ResultDocument['recordings'][number]['trials'][number];
