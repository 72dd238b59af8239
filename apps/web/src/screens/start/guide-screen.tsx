import { Link } from 'react-router';
import { usePageTitle } from '../../app/page-title.ts';
import { Icon } from '../../parts/icon.tsx';
import { startWords } from '../../words/start.ts';
import { Cautions } from './cautions.tsx';
import './start.css';

/** The guide inside the program: same version, no network. */
export function GuideScreen() {
  const t = startWords.guidePage;
  usePageTitle(t.title);
  return (
    <article className="page guide">
      <Link to="/" className="way-back">
        <Icon name="left" size={16} />
        {t.back}
      </Link>
      <h1>{t.title}</h1>
      <p className="start-lead">{t.lead}</p>
      {t.sections.map((section) => (
        <section key={section.title}>
          <h2>{section.title}</h2>
          <ol>
            {section.steps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
        </section>
      ))}
      <div className="acts">
        <Link className="button main" to="/lab/import">
          {startWords.import.act}
        </Link>
        <Link className="button" to="/?demo=fernwater">
          {startWords.example.act}
        </Link>
      </div>
      <Cautions open />
    </article>
  );
}
