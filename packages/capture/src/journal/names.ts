/**
 * Names in a journal folder. A capture is one stream from opening to closing, numbered in the order of opening; no part of a
 * name comes from a person or a device. `capture-000007.0002.journal` is the third segment of the seventh capture.
 */
export const captureName = (number: number): string => `capture-${String(number).padStart(6, '0')}`;
export const segmentName = (capture: string, segment: number): string =>
  `${capture}.${String(segment).padStart(4, '0')}.journal`;
export const sealName = (capture: string): string => `${capture}.seal`;
export const reserveName = 'reserve.bin';

const segmentPattern = /^(capture-\d{6,})\.(\d{4,})\.journal$/;

/** The segments of each capture, both in order. Other names are left aside. */
export function capturesIn(names: Iterable<string>): Map<string, string[]> {
  const found: { name: string; capture: string; segment: number }[] = [];
  for (const name of names) {
    const [, capture, segment] = segmentPattern.exec(name) ?? [];
    if (capture !== undefined) found.push({ name, capture, segment: Number(segment) });
  }
  const number = (capture: string) => Number(capture.slice('capture-'.length));
  found.sort((a, b) => number(a.capture) - number(b.capture) || a.segment - b.segment);
  const captures = new Map<string, string[]>();
  for (const { name, capture } of found) captures.set(capture, [...(captures.get(capture) ?? []), name]);
  return captures;
}

/** Number for the next capture. Seals count too, so that a number is never given twice. */
export function nextCaptureNumber(names: Iterable<string>): number {
  let highest = 0;
  for (const name of names) highest = Math.max(highest, Number(/^capture-(\d{6,})\./.exec(name)?.[1] ?? 0));
  return highest + 1;
}
