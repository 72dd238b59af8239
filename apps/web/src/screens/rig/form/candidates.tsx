import type { SourceDescriptionDocument, SourceListening } from '@sthene/contract';
import { numberText } from '../../../number/format.ts';
import { rigWords } from '../../../words/rig.ts';

interface CandidatesProps {
  readonly candidates: SourceListening['candidates'];
  onUse(description: SourceDescriptionDocument): void;
}

/** Layouts that would fit the bytes, with why; a person chooses. */
export function Candidates({ candidates, onUse }: CandidatesProps) {
  const t = rigWords.listen;
  if (candidates.length === 0) return null;
  return (
    <>
      <h3>{t.candidates}</h3>
      <ul className="candidates">
        {candidates.map(({ words, fits, reasons, description }) => (
          <li key={words}>
            <div>
              <p>
                <b>{words}</b> <span className="soft">{t.fits(numberText(100 * fits, 0))}</span>
              </p>
              <ul className="dots small soft">
                {reasons.map((reason) => (
                  <li key={reason}>{reason}</li>
                ))}
              </ul>
            </div>
            <button
              type="button"
              className="button"
              aria-label={`${t.use}: ${words}`}
              onClick={() => onUse(description)}
            >
              {t.use}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}
