import { decimalsFor, numberText, unitText } from '../../number/format.ts';
import { reasonWords, words } from '../../words/index.ts';
import { inSentence } from '../../words/title.ts';
import { resolutionOf } from './numbers.ts';
import { useShared } from './trial-context.ts';
import { isUncertainty, shareOf, sizeText } from './uncertain.ts';

/** How sure a value is: the number, its parts with their shares, what is not known, and the timing of its events by itself. */
export function UncertaintyPart({ id, value, unit }: { id: string; value: number; unit: string }) {
  const { view, uncertainty } = useShared();
  const one = uncertainty?.metrics[id];
  const t = words.uncertainty;
  if (one === undefined) return null;
  if (!isUncertainty(one)) return <>{reasonWords(one.reason)}</>;
  // One digit more than the value has: the parts are compared with each other.
  const decimals = decimalsFor(unit, value, resolutionOf(view.result)) + 1;
  const write = (size: number) => [sizeText(size, decimals), unitText(unit)].filter(Boolean).join('\u00a0');
  const there = one.parts.filter(({ standard }) => standard > 0);
  const timings = [one.onsetTiming, one.flightTiming].flatMap((timing) => timing ?? []);
  const cancelled = one.parts.filter(({ standard }) => standard === 0);
  return (
    <div className="uncertainty">
      <p>
        <span className="number">{`\u00b1\u202f${write(one.expanded)}`}</span> {t.meaning(write(one.standard))}
      </p>
      <table className="uncertainty-parts">
        <caption className="unseen">{t.parts}</caption>
        <tbody>
          {there.map((part) => (
            <tr key={part.id}>
              <th scope="row">
                {part.words}
                {part.note !== undefined && <span className="soft"> ({part.note})</span>}
              </th>
              <td className="number">{write(part.standard)}</td>
              <td className="uncertainty-share">
                <span className="number">{`${numberText(100 * shareOf(part, one), 0)}\u2009%`}</span>
                <span className="uncertainty-bar" style={{ inlineSize: `${100 * shareOf(part, one)}%` }} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {cancelled.length > 0 && <p className="soft">{t.cancels(cancelled.map((part) => inSentence(part.words)))}</p>}
      {one.unknown.length > 0 && <p>{t.unknown(one.unknown.map((part) => inSentence(part.words)))}</p>}
      {timings.map(({ words: said, standard }) => (
        <p key={said}>
          {said}: <span className="number">{write(standard)}</span>.
        </p>
      ))}
      {timings.length > 0 && <p className="soft">{t.beside(timings.length)}</p>}
    </div>
  );
}
