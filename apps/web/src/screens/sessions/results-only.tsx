import { receivedWords as t } from '../../words/received.ts';

/** Marks a session that came without curves, with the method its values were made by. */
export function ResultsOnly({ label }: { label: string }) {
  return (
    <span className="results-only">
      <b>{t.mark}</b> <span className="small soft">{t.label(label)}</span>
    </span>
  );
}
