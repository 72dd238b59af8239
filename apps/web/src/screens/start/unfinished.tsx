import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import { forgetFile, uploadsQuery } from '../../data/imports.ts';
import { whenText } from '../../number/when.ts';
import { useSay } from '../../parts/status.tsx';
import { startWords } from '../../words/start.ts';

const few = 3;

/** Files that were sent and then left: go on, or take them off the list. */
export function Unfinished() {
  const t = startWords.unfinished;
  const uploads = useQuery(uploadsQuery('lab'));
  const client = useQueryClient();
  const say = useSay();
  const [all, setAll] = useState(false);
  if (!uploads.data || uploads.data.length === 0) return null;
  const list = all ? uploads.data : uploads.data.slice(0, few);
  return (
    <section className="unfinished" aria-labelledby="unfinished">
      <h2 id="unfinished">{t.title}</h2>
      <p className="small soft">{t.text}</p>
      <ul>
        {list.map((one) => (
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
      {uploads.data.length > few && (
        <button type="button" className="button quiet" aria-expanded={all} onClick={() => setAll(!all)}>
          {all ? t.fewer : t.all(uploads.data.length)}
        </button>
      )}
    </section>
  );
}
