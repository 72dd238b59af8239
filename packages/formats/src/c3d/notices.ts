import type { Notice } from '@sthene/core';

/** What the reader decided or repaired, in the order it happened. Codes are permanent; the README lists them. */
export class Notices {
  readonly list: Notice[] = [];

  add(code: string, message: string): void {
    this.list.push({ code, message });
  }
}
