import type { SourceListening } from '@sthene/contract';
import { numberText } from '../../../number/format.ts';
import { rigWords } from '../../../words/rig.ts';

/** Shares of a percent from which a measured rate is another one than promised. */
const apart = 0.005;

/** What came in numbers: bytes, lines or frames, checksums, rate against promise, losses. */
export function HeardFacts({ view, onRate }: { view: SourceListening; onRate: (rate: number) => void }) {
  const t = rigWords.listen;
  const { bytes, pieces, counts, rate } = view;
  const whole = (value: number) => numberText(value, 0);
  const differs = rate !== undefined && Math.abs(rate.measured - rate.promised) > apart * rate.promised;
  return (
    <dl className="heard-facts">
      {bytes && (
        <div>
          <dt>{t.facts.bytes}</dt>
          <dd className="number">{t.perSecond(whole(bytes.received), whole(bytes.perSecond))}</dd>
        </div>
      )}
      {pieces && (
        <div>
          <dt>{pieces.kind === 'lines' ? t.facts.lines : t.facts.frames}</dt>
          <dd className="number">{t.readable(whole(pieces.right), whole(pieces.found))}</dd>
        </div>
      )}
      <div>
        <dt>{t.facts.samples}</dt>
        <dd className="number">{whole(counts.samples)}</dd>
      </div>
      {rate && (
        <div>
          <dt>{t.facts.rate}</dt>
          <dd>
            <span className="number">
              {numberText(rate.measured, 1)} {'\u00b1'} {numberText(rate.uncertainty, 1)}
              {'\u00a0'}Hz
            </span>{' '}
            <span className="soft">{t.promised(numberText(rate.promised, 0))}</span>{' '}
            {differs && (
              <button type="button" className="button" onClick={() => onRate(Math.round(rate.measured))}>
                {t.takeRate(whole(rate.measured))}
              </button>
            )}
          </dd>
        </div>
      )}
      <div>
        <dt>{t.facts.losses}</dt>
        <dd>{rigWords.counts.words(counts)}</dd>
      </div>
    </dl>
  );
}
