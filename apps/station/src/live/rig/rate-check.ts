import type { SampleTime } from './sample-time.ts';

/** Rates by arrivals further apart than this are told, as a share; packets come in steps of 20 ms and more. */
const tolerance = 0.05;

/** After the machine was asleep: do the plates still run at the rate they ran at before? */
export class RateCheck {
  #asked = false;
  #before: number | undefined;
  #toldOther = false;

  /** @param rate before the machine fell asleep, Hz; undefined where it had not been seen for long enough to be compared with */
  begin(rate: number | undefined): void {
    this.#asked = true;
    this.#before ??= rate;
    this.#toldOther = false;
  }

  /**
   * @param time arrivals since waking up
   * @returns true when the rate is the same or nothing is known to compare it with, once; false when it is another, once;
   *   undefined when there is nothing to say
   */
  judge(time: SampleTime | undefined): boolean | undefined {
    if (!this.#asked || time?.settled !== true) return undefined;
    const same = this.#before === undefined || Math.abs(time.rate - this.#before) <= tolerance * this.#before;
    if (!same && this.#toldOther) return undefined;
    this.#toldOther = true;
    if (same) {
      this.#asked = false;
      this.#before = undefined;
    }
    return same;
  }
}
