import type { FlippedTrial, LabId } from '@sthene/contract';
import { Link } from 'react-router';
import { whenText } from '../../number/when.ts';
import { methodWords } from '../../words/methods.ts';

/** The way to a trial of a run, named by its person, day and order. */
export function TrialLink({ lab, of }: { lab: LabId; of: Pick<FlippedTrial, 'trial' | 'person' | 'at' | 'order'> }) {
  return (
    <Link to={`/${lab}/trials/${of.trial}`}>
      {methodWords.preview.trial(of.person.name, whenText(of.at, false), of.order)}
    </Link>
  );
}

interface More {
  readonly hasNextPage: boolean;
  readonly isFetchingNextPage: boolean;
  fetchNextPage(): Promise<unknown>;
}

/** Asks for the next page of a list, where there is one. */
export function ShowMore({ of }: { of: More }) {
  if (!of.hasNextPage) return null;
  return (
    <div className="acts">
      <button type="button" className="button" disabled={of.isFetchingNextPage} onClick={() => void of.fetchNextPage()}>
        {methodWords.flips.more}
      </button>
    </div>
  );
}
