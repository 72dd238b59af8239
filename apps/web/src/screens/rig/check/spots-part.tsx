import type { RigCheckResultView } from '@sthene/contract';
import { signedText } from '../../../number/format.ts';
import { rigCheckWords } from '../../../words/rig-check.ts';
import { newtonText } from './check-text.ts';

const t = rigCheckWords.result.places;

/** What one load showed at the five places of a plate, laid out as they lie on it: which corner is weak. */
export function SpotsPart({ spots: { load, bySpot } }: { spots: RigCheckResultView['spots'][number] }) {
  const centre = bySpot.find(({ spot }) => spot === 'centre')?.reading;
  return (
    <figure className="spots">
      <figcaption className="small soft">{t.title(newtonText(load))}</figcaption>
      <dl>
        {bySpot.map(({ spot, reading }) => (
          <div key={spot} data-spot={spot}>
            <dt className="small soft">{t.names[spot]}</dt>
            <dd className="number">
              {newtonText(reading)}
              {centre !== undefined && spot !== 'centre' && (
                <span className="small soft">
                  {signedText(100 * (reading / centre - 1), 2)}
                  {'\u00a0'}%
                </span>
              )}
            </dd>
          </div>
        ))}
      </dl>
    </figure>
  );
}
