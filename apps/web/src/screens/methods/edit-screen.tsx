import { methodRoutes } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useMay } from '../../data/access.ts';
import { methodQuery } from '../../data/methods.ts';
import { Elsewhere } from '../../parts/elsewhere.tsx';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';
import { methodWords as t } from '../../words/methods.ts';
import { MethodEditor } from './editor.tsx';
import '../../parts/form.css';
import './methods.css';

/** Makes a method from another one. */
export function EditMethodScreen() {
  usePageTitle(t.acts.make);
  const lab = useLab() ?? 'lab';
  const { id = '' } = useParams();
  const found = useQuery(methodQuery(lab, id));
  const may = useMay()(methodRoutes.succeedMethod);
  return (
    <section className="page live-page method-page">
      <Link className="way-back" to={`/${lab}/methods/${id}`}>
        <Icon name="left" size={16} /> {found.data?.name ?? t.back}
      </Link>
      {!may && (
        <>
          <h1>{t.acts.make}</h1>
          <Elsewhere unless={methodRoutes.succeedMethod} about="methods" />
        </>
      )}
      {may && found.isPending && (
        <p className="soft" role="status">
          {words.app.loading}
        </p>
      )}
      {may && found.isError && <ProblemCard page error={found.error} onRetry={() => void found.refetch()} />}
      {may && found.data && <MethodEditor key={id} lab={lab} before={found.data} />}
    </section>
  );
}
