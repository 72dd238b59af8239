import { useQuery, useQueryClient } from '@tanstack/react-query';
import { Link } from 'react-router';
import { forgetFile, uploadsQuery } from '../../data/imports.ts';
import { whenText } from '../../number/when.ts';
import { useSay } from '../../parts/status.tsx';
import { startWords } from '../../words/start.ts';

/** Files that were sent and then left: go on, or take them off the list. */
export function Unfinished() {
  const t = startWords.unfinished;
  const uploads = useQuery(uploadsQuery('lab'));
  const client = useQueryClient();
  const say = useSay();
  if (!uploads.data || uploads.data.length === 0) return null;
  return (
    <section className="unfinished" aria-labelledby="unfinished">
      <h2 id="unfinished">{t.title}</h2>
      <p className="small soft">{t.text}</p>
      <ul>
        {uploads.data.map((one) => (
          <li key={one.id}>
            <span className="unfinished-name">
              {one.fileName} <span className="small soft">{whenText(one.receivedAt)}</span>
            </span>
            <Link className="button" to={`/lab/import?received=${one.id}`} aria-label={t.goOn(one.fileName)}>
              {t.go}
            </Link>
            <button
              type="button"
              className="button quiet"
              aria-label={t.forgetIt(one.fileName)}
              onClick={() =>
                void forgetFile('lab', one.id)
                  .then(() => say(t.forgotten(one.fileName)))
                  .finally(() => client.invalidateQueries({ queryKey: ['uploads', 'lab'] }))
              }
            >
              {t.forget}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
