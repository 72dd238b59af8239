import { z } from 'zod';

/** What a check of a rig is made of and what came of it, as `@sthene/core` defines them; a test keeps these and its types equal. */
const outcomeOf = <T extends z.ZodType>(value: T) =>
  z.union([z.object({ ok: z.literal(true), value }), z.object({ ok: z.literal(false), reason: z.string() })]);

export const rigQuantity = z.enum([
  'gain',
  'offset',
  'linearity',
  'hysteresis',
  'repeatability',
  'relative-error',
  'small-load-error',
  'zero-return',
  'zero-drift',
  'noise',
  'mains',
  'spots',
  'balance',
  'frequency',
  'cell',
]);

export const loadSpot = z.enum(['centre', 'front-left', 'front-right', 'back-left', 'back-right']);
export const loadDirection = z.enum(['up', 'down']);

export const siteGravity = z.object({
  value: z.number(),
  from: z.enum(['entered', 'place']),
  latitude: z.number().optional(),
  altitude: z.number().optional(),
  uncertainty: z.number(),
});

export const referenceMass = z.object({
  id: z.string().min(1).max(60),
  name: z.string().min(1).max(100),
  mass: z.number().positive().max(2000),
  known: z.enum(['certificate', 'tolerance', 'printed']),
  within: z.number().min(0).max(100),
  reference: z.string().max(200).optional(),
  density: z.number().min(500).max(25_000).optional(),
});

export const rigLimit = z.object({
  id: rigQuantity,
  unit: z.enum(['%', 'N', '% of the largest load', 'Hz']),
  value: z.number(),
  good: z.enum(['at-most', 'at-least']),
  beyond: z.enum(['fail', 'look']),
  source: z.string(),
});

export const loadReading = z.object({
  plate: z.string(),
  series: z.number(),
  direction: loadDirection,
  spot: loadSpot,
  load: z.number(),
  loadUncertainty: z.number(),
  reading: z.number(),
  sd: z.number().optional(),
  origin: z.enum(['samples', 'typed']),
});

export const plateCorrection = z.object({ plate: z.string(), gain: z.number(), offset: z.number() });

const rest = z.object({
  plate: z.string(),
  mean: z.number(),
  noise: z.number(),
  mains: z.array(z.object({ frequency: z.number(), amplitude: z.number() })),
  drift: z.number(),
});

const tap = z.object({
  plate: z.string(),
  frequency: z.number(),
  resolution: z.number(),
  prominence: z.number(),
});

const weightOnPlate = z.object({ plate: z.string(), weight: z.number() });
const cellPair = z.object({ plates: z.number(), cell: z.number() });

export const rigCheckDocument = z.object({
  schema: z.literal('sthene.rig-check/1'),
  plates: z.array(z.string()),
  gravity: siteGravity,
  airDensity: z.number(),
  masses: z.array(referenceMass),
  limits: z.array(rigLimit),
  corrected: z.array(plateCorrection),
  readings: z.array(loadReading),
  rest: z.array(rest),
  taps: z.array(tap),
  balance: z.array(weightOnPlate),
  cell: z.array(cellPair),
});

const line = z.object({
  n: z.number(),
  slope: z.number(),
  offset: z.number(),
  residuals: z.array(z.number()),
  largestResidual: z.number(),
  standardError: z.number(),
  slopeError: z.number(),
});

const plateFigures = z.object({
  plate: z.string(),
  series: z.number(),
  largestLoad: z.number(),
  loads: z.array(
    z.object({
      load: z.number(),
      loadUncertainty: z.number(),
      up: z.number().optional(),
      down: z.number().optional(),
      error: z.number().optional(),
      relativeError: z.number().optional(),
      spread: z.number().optional(),
      hysteresis: z.number().optional(),
    }),
  ),
  line: outcomeOf(line),
  linearity: z.number().optional(),
  hysteresis: z.number().optional(),
  repeatability: z.number().optional(),
  repeatabilitySd: z.number().optional(),
  zeroReturn: z.object({ newtons: z.number(), share: z.number() }).optional(),
  zeroDrift: z.number().optional(),
  noise: z.number().optional(),
});

const rigUncertainty = z.object({
  gain: z.number(),
  repeatability: z.number(),
  linearity: z.number(),
  largestForce: z.number(),
  parts: z.object({ masses: z.number(), gravity: z.number(), slope: z.number(), uncorrected: z.number() }),
});

export const rigVerdict = z.enum(['passes', 'look', 'fails', 'incomplete']);

export const rigCheckResult = z.object({
  rules: z.literal(1),
  verdict: rigVerdict,
  quantities: z.array(
    z.object({
      id: rigQuantity,
      plate: z.string().optional(),
      value: z.number(),
      limit: rigLimit,
      standing: z.enum(['pass', 'look', 'fail', 'not-judged']),
      load: z.number().optional(),
    }),
  ),
  shortfalls: z.array(
    z.object({
      code: z.enum([
        'no-loads',
        'few-loads',
        'no-way-down',
        'one-series',
        'few-series',
        'masses-unknown',
        'masses-rough',
        'typed',
      ]),
      weight: z.enum(['incomplete', 'look']),
      plate: z.string().optional(),
      got: z.number().optional(),
      wanted: z.number().optional(),
    }),
  ),
  plates: z.array(plateFigures),
  spots: z.array(
    z.object({
      plate: z.string(),
      load: z.number(),
      bySpot: z.array(z.object({ spot: loadSpot, reading: z.number() })),
      spread: z.number(),
    }),
  ),
  balance: z.object({ plates: z.array(weightOnPlate), difference: z.number() }).optional(),
  cell: z
    .object({
      line,
      pairs: z.array(cellPair.extend({ error: z.number(), relativeError: z.number().optional() })),
      largest: z.number(),
    })
    .optional(),
  checkedTo: z.number(),
  uncertainty: z
    .object({ rig: rigUncertainty, plates: z.array(rigUncertainty.extend({ plate: z.string() })) })
    .optional(),
  correction: z.array(plateCorrection),
});

export type RigCheckDocumentView = z.infer<typeof rigCheckDocument>;
export type RigCheckResultView = z.infer<typeof rigCheckResult>;
export type LimitQuantity = z.infer<typeof rigQuantity>;
export type MassView = z.infer<typeof referenceMass>;
