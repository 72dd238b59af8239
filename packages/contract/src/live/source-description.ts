import { z } from 'zod';

/**
 * A source as data: how bytes come in, how they become rows, and what each channel is. Kept as a file that labs can share; a
 * test keeps this schema and the type of the capture package equal.
 */
const hexadecimal = z.string().regex(/^\s*([0-9a-fA-F]{2}\s*)*$/, 'pairs of hexadecimal digits');

export const sourceTransport = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('serial'),
    path: z.string().min(1).max(300),
    baudRate: z.number().int().positive(),
    dataBits: z.union([z.literal(7), z.literal(8)]).optional(),
    parity: z.enum(['none', 'even', 'odd']).optional(),
    stopBits: z.union([z.literal(1), z.literal(2)]).optional(),
    serialNumber: z.string().max(200).optional(),
    startBytes: hexadecimal.optional(),
  }),
  z.object({
    kind: z.literal('tcp'),
    mode: z.enum(['connect', 'listen']),
    host: z.string().min(1).max(255),
    port: z.number().int().min(0).max(65535),
    startBytes: hexadecimal.optional(),
  }),
  z.object({
    kind: z.literal('udp'),
    host: z.string().min(1).max(255),
    port: z.number().int().min(0).max(65535),
  }),
  z.object({
    kind: z.literal('stream'),
    name: z.string().min(1).max(500).optional(),
    type: z.string().min(1).max(500).optional(),
    /** By it the sender is known again after it began anew. */
    sourceId: z.string().min(1).max(500).optional(),
    /** Asked alone; absent: the own network and this machine are asked. */
    host: z.string().min(1).max(253).optional(),
    port: z.number().int().min(1).max(65535).optional(),
    /** Names of the stream's channels when it was described, in their order. */
    labels: z.array(z.string().min(1).max(200)).min(1).max(256).optional(),
  }),
  z.object({
    kind: z.literal('folder'),
    path: z.string().min(1).max(1000),
    pattern: z.string().max(200).optional(),
  }),
  z.object({
    kind: z.literal('replay'),
    file: z.string().min(1).max(1000),
    /** 1 is as it was; 0 as fast as can be. */
    speed: z.number().min(0),
    repeat: z.boolean().optional(),
  }),
  z.object({
    kind: z.literal('virtual'),
    script: z.string().max(100_000),
    seed: z.number().int(),
    speed: z.number().min(0).optional(),
  }),
]);

const fieldRole = z.discriminatedUnion('role', [
  z.object({
    role: z.literal('counter'),
    wrapsAt: z.number().int().positive().optional(),
    step: z.number().int().positive().optional(),
  }),
  z.object({ role: z.literal('time'), unit: z.enum(['s', 'ms', 'us']), wrapsAt: z.number().positive().optional() }),
  z.object({ role: z.literal('channel'), channel: z.string().min(1).max(100) }),
  z.object({ role: z.literal('ignore') }),
]);

const fieldType = z.enum(['u8', 'i8', 'u16', 'i16', 'i24', 'u24', 'i32', 'u32', 'f32', 'f64']);

const endian = z.enum(['little', 'big']);

const checksum = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('none') }),
  z.object({ kind: z.enum(['sum8', 'xor8']), withSync: z.boolean().optional() }),
  z.object({
    kind: z.literal('crc16'),
    polynomial: z.number().int(),
    initial: z.number().int(),
    reflected: z.boolean(),
    finalXor: z.number().int(),
    endian: endian.optional(),
    withSync: z.boolean().optional(),
  }),
  z.object({ kind: z.literal('crc32'), endian: endian.optional(), withSync: z.boolean().optional() }),
]);

const typedField = fieldRole.and(z.object({ type: fieldType }));

export const sourceLayout = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('lines'),
    delimiter: z.string().length(1),
    decimal: z.enum(['.', ',']).optional(),
    comment: z.string().max(20).optional(),
    fields: z.array(fieldRole).min(1).max(256),
  }),
  z.object({
    kind: z.literal('frames'),
    sync: hexadecimal.min(2),
    endian,
    head: z.array(typedField).max(64),
    sample: z.array(typedField).min(1).max(256),
    samples: z.number().int().min(1).max(10_000),
    checksum,
  }),
]);

const place = z.tuple([z.number(), z.number(), z.number()]);

export const sourceChannel = z.object({
  name: z.string().min(1).max(100),
  plate: z.string().max(100),
  side: z.enum(['left', 'right', 'none']),
  axis: z.enum(['x', 'y', 'z', 'mx', 'my', 'mz', 'force', 'other']),
  unit: z.string().max(20),
  scale: z.number(),
  offset: z.number(),
  rawRange: z.tuple([z.number(), z.number()]).optional(),
  /** With the vertical channel of a plate of three forces and three moments: where its surface lies, mm. */
  surface: z.object({ origin: place, corners: z.tuple([place, place, place, place]).optional() }).optional(),
});

/** A calibration matrix: each channel it makes is the sum of its row times the signals. */
export const sourceCalibration = z.object({
  /** Names of channels that come in, one a column. */
  signals: z.array(z.string().min(1).max(100)).min(1).max(64),
  /** One row for each channel made, one column for each signal. */
  matrix: z.array(z.array(z.number()).min(1).max(64)).min(1).max(64),
  channels: z
    .array(sourceChannel.pick({ name: true, plate: true, side: true, axis: true, unit: true, surface: true }))
    .min(1)
    .max(64),
});

export const sourceDescription = z.object({
  schema: z.literal('sthene.source/1'),
  name: z.string().min(1).max(100),
  transport: sourceTransport,
  /** Absent for streams, folder, replay and virtual sources, which bring their own. */
  layout: sourceLayout.optional(),
  channels: z.array(sourceChannel).max(256),
  /** Plates whose forces are a matrix times several signals. */
  calibration: z.array(sourceCalibration).min(1).max(32).optional(),
  /** Promised rate, Hz. */
  rate: z.number().positive(),
  notes: z.string().max(10_000).optional(),
});

export type SourceDescriptionDocument = z.infer<typeof sourceDescription>;
