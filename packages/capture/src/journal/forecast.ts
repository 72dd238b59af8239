/** Below this many minutes the operator is warned; the warning goes when there is a third more. */
export const warnMinutes = 15;
const calmMinutes = 20;
/** The rate is that of the last minute. */
const windowSeconds = 60;
/** A rate measured over less time is no rate yet. */
const leastSeconds = 2;

/** How long the disk will last at the measured rate. */
export interface DiskOutlook {
  readonly freeBytes?: number;
  readonly bytesPerSecond?: number;
  /** Absent while there is no rate, a rate of zero, or no knowledge of free space. */
  readonly minutesLeft?: number;
  readonly warning: boolean;
}

/** Measures the rate of writing over the last minute and forecasts when the disk is full. Times are in seconds. */
export class DiskForecast {
  readonly #written: { at: number; total: number }[] = [];
  #total = 0;
  #free: { at: number; bytes: number; total: number } | undefined;
  #warning = false;

  /** Notes that bytes were written. */
  wrote(bytes: number, at: number): void {
    if (this.#written.length === 0) this.#written.push({ at, total: 0 });
    this.#total += bytes;
    this.#written.push({ at, total: this.#total });
    while (this.#written.length > 2 && (this.#written[1] as { at: number }).at <= at - windowSeconds)
      this.#written.shift();
  }

  /** Notes how much space the system reports. */
  free(bytes: number, at: number): void {
    this.#free = { at, bytes, total: this.#total };
  }

  outlook(at: number): DiskOutlook {
    const first = this.#written[0];
    const span = first === undefined ? 0 : at - first.at;
    const rate = first !== undefined && span >= leastSeconds ? (this.#total - first.total) / span : undefined;
    // Between two looks at the disk, what was written since the last look is taken off.
    const freeBytes =
      this.#free === undefined ? undefined : Math.max(0, this.#free.bytes - (this.#total - this.#free.total));
    const minutesLeft = rate !== undefined && rate > 0 && freeBytes !== undefined ? freeBytes / rate / 60 : undefined;
    if (freeBytes === 0) this.#warning = true;
    else if (minutesLeft !== undefined) this.#warning = minutesLeft < (this.#warning ? calmMinutes : warnMinutes);
    return {
      ...(freeBytes === undefined ? {} : { freeBytes }),
      ...(rate === undefined ? {} : { bytesPerSecond: rate }),
      ...(minutesLeft === undefined ? {} : { minutesLeft }),
      warning: this.#warning,
    };
  }
}
