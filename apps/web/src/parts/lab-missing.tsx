import { Link } from 'react-router';
import { dayWords } from '../words/day.ts';

/** A page of a lab that is not there, with the way back. */
export function LabMissing() {
  const { missing } = dayWords.days;
  return (
    <div className="nothing">
      <h2>{missing.title}</h2>
      <p>{missing.text}</p>
      <p>
        <Link to="/">{missing.act}</Link>
      </p>
    </div>
  );
}
