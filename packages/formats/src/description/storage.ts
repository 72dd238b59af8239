import type { RawSamples } from '@sthene/core';

/** Storage types of raw samples by name, as written into files. */
export type Storage = 'float64' | 'float32' | 'int32' | 'int16' | 'uint16' | 'uint32' | 'int8' | 'uint8';

const makers: Readonly<Record<Storage, new (length: number) => RawSamples>> = {
  float64: Float64Array,
  float32: Float32Array,
  int32: Int32Array,
  int16: Int16Array,
  uint16: Uint16Array,
  uint32: Uint32Array,
  int8: Int8Array,
  uint8: Uint8Array,
};

/** All names, in no order that matters. */
export const storages = Object.keys(makers) as readonly Storage[];

/** Name of the type an array stores. */
export function storageOf(raw: RawSamples): Storage {
  for (const storage of storages) if (raw instanceof makers[storage]) return storage;
  throw new TypeError('raw samples of an unknown type');
}

/** An array of zeros of the named type. */
export const samplesOf = (storage: Storage, length: number): RawSamples => new makers[storage](length);

/** Whether the type can hold a missing sample as NaN. */
export const isFloat = (storage: Storage): boolean => storage === 'float64' || storage === 'float32';
