import { usePageTitle } from '../../app/page-title.ts';
import { words } from '../../words/index.ts';

/** The place of the import screen; it holds only its heading until that screen is built. */
export function ImportScreen() {
  usePageTitle(words.app.import);
  return (
    <section className="page">
      <h1>{words.app.import}</h1>
    </section>
  );
}
