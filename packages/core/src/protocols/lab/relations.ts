import type { ProtocolDocument } from './document.ts';
import type { Reader } from './reader.ts';

/** Faults that lie between two values which are both fine alone. */
export function readRelations(reader: Reader, { maximal, rest, pull, warmUp }: ProtocolDocument): void {
  const order = (at: string, expected: string, found: number, words: string) =>
    reader.add('protocol-order-wrong', at, expected, found, words);
  if (maximal.planned < maximal.minimum)
    order('maximal.planned', `${maximal.minimum} or more`, maximal.planned, 'Not fewer than must count.');
  if (maximal.maximum < maximal.planned)
    order('maximal.maximum', `${maximal.planned} or more`, maximal.maximum, 'Not fewer than are aimed at.');
  if (maximal.planned > 0 && maximal.minimum < 1)
    order('maximal.minimum', '1 or more', maximal.minimum, 'Where maximal efforts are planned, one must count.');
  if (rest.maximum <= rest.minimum)
    order('rest.maximum', `over ${rest.minimum} s`, rest.maximum, 'The longest rest must be longer than the shortest.');
  if (pull.warnUnder > pull.seconds)
    order('pull.warnUnder', `at most ${pull.seconds} s`, pull.warnUnder, 'Not longer than the pull itself.');
  if (pull.failUnder > pull.warnUnder)
    order('pull.failUnder', `at most ${pull.warnUnder} s`, pull.failUnder, 'Not longer than the second look.');
  for (const [i, { share, band }] of warmUp.efforts.entries())
    if (share * (1 + band) >= 1)
      order(
        `warmUp.efforts.${i}.band`,
        'a band that ends under the maximum',
        band,
        'The target band would reach the maximum; make it narrower or the effort easier.',
      );
  if (maximal.planned > 0 && warmUp.steps.length === 0 && warmUp.efforts.length === 0)
    reader.add(
      'protocol-no-warm-up',
      'warmUp.efforts',
      'a step or a submaximal effort',
      0,
      'No maximal effort without a warm-up: add a step or a submaximal effort.',
    );
  if (maximal.planned === 0 && warmUp.efforts.length === 0)
    reader.add(
      'protocol-no-warm-up',
      'warmUp.efforts',
      'a submaximal effort',
      0,
      'Without maximal efforts there must be a submaximal one, else nothing is measured.',
    );
}
