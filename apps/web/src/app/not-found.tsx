import { Link } from 'react-router';
import { words } from '../words/index.ts';

/** An address nothing stands behind. */
export function NotFound() {
  return (
    <section className="page">
      <h1>{words.app.notFound}</h1>
      <p className="soft">{words.app.notFoundNext}</p>
      <p>
        <Link to="/">{words.app.start}</Link>
      </p>
    </section>
  );
}
