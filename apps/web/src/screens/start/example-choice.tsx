import type { Lab } from '@sthene/contract';
import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useRef } from 'react';
import { useNavigate, useSearchParams } from 'react-router';
import { useCreateLab } from '../../data/labs.ts';
import { stationQuery } from '../../data/queries.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';
import { startWords as t } from '../../words/start.ts';
import { Choice } from './choice.tsx';
import { usePractice } from './use-practice.ts';

const exampleName = 'fernwater';

/**
 * Offers the example: a practice day on virtual plates, or its three seasons to look at. Builds it with its true progress.
 * `?demo=fernwater` in the address builds and opens the seasons at once.
 */
export function ExampleChoice({ example }: { example: Lab | undefined }) {
  const navigate = useNavigate();
  const client = useQueryClient();
  const [search, setSearch] = useSearchParams();
  const build = useCreateLab('example');
  const practice = usePractice(example?.exists === true && example.progress === undefined);
  const wanted = search.get('demo');
  const begun = useRef(false);
  const look = () => {
    if (build.isPending) return;
    build.mutate(undefined, { onSuccess: () => void navigate('/example/sessions') });
  };
  const { isPending } = build;

  useEffect(() => {
    if (wanted !== exampleName || begun.current) return;
    begun.current = true;
    setSearch({}, { replace: true });
    build.mutate(undefined, { onSuccess: () => void navigate('/example/sessions') });
  }, [wanted, build, navigate, setSearch]);

  // While it is built the station knows how far it is; this page only asks.
  const watched = isPending || practice.pending || example?.progress !== undefined;
  useEffect(() => {
    if (!watched) return;
    const timer = setInterval(() => void client.invalidateQueries({ queryKey: stationQuery().queryKey }), 500);
    return () => clearInterval(timer);
  }, [watched, client]);

  const mark = <span className="example-mark small">{words.app.example}</span>;
  if (watched)
    return (
      <Choice title={t.example.building} text={t.example.buildingNote} mark={mark} main>
        <Progress {...(example?.progress ? { progress: example.progress } : {})} />
      </Choice>
    );
  const error = practice.error ?? (build.isError ? build.error : undefined);
  if (example?.exists && !error && (wanted === null || wanted === exampleName)) return null;
  return (
    <Choice title={t.example.title} text={t.example.text} mark={mark} main>
      {wanted !== null && wanted !== exampleName && <p role="alert">{t.example.unknown(wanted)}</p>}
      {error && <ProblemCard error={error} />}
      <button type="button" className="button main" onClick={() => void practice.begin()}>
        {t.example.practice}
      </button>
      <button type="button" className="button" onClick={look}>
        {example?.exists ? t.example.finish : t.example.act}
      </button>
    </Choice>
  );
}

function Progress({ progress }: { progress?: { done: number; total: number } }) {
  const said = progress ? t.example.progress(progress.done, progress.total) : t.example.begins;
  return (
    <div className="progress">
      <progress aria-label={t.example.building} {...(progress ? { value: progress.done, max: progress.total } : {})} />
      <span className="small number" aria-hidden="true">
        {said}
      </span>
    </div>
  );
}
