import { problemOf } from '../data/station.ts';
import { words } from '../words/index.ts';
import './problem-card.css';

/** What happened, what is safe and what to do next, with a code; never a stack trace. */
export function ProblemCard({
  error,
  onRetry,
  page = false,
}: {
  error: unknown;
  onRetry?: () => void;
  page?: boolean;
}) {
  const problem = problemOf(error);
  return (
    <section className="problem" role="alert">
      {page ? <h1>{problem.title}</h1> : <h2>{problem.title}</h2>}
      {problem.detail !== problem.title && problem.detail !== `${problem.title}.` && <p>{problem.detail}</p>}
      <p>{problem.next}</p>
      <div className="problem-end">
        {onRetry && (
          <button type="button" className="button" onClick={onRetry}>
            {words.problem.retry}
          </button>
        )}
        <span className="small soft">
          {words.problem.code} <span className="number">{problem.code}</span>
        </span>
      </div>
    </section>
  );
}
