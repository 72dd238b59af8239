import { type LabId, type ProtocolVersionView, protocolRoutes } from '@sthene/contract';
import type { ProtocolDocument } from '@sthene/core';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams, useSearchParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useMay } from '../../data/access.ts';
import { protocolQuery } from '../../data/protocols.ts';
import { Elsewhere } from '../../parts/elsewhere.tsx';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';
import { protocolWords as t } from '../../words/protocols.ts';
import { Editor } from './editor.tsx';
import '../../parts/form.css';
import './protocols.css';

/** What an editor begins with. */
export interface Beginning {
  /** Absent: a new protocol. */
  readonly id?: string;
  readonly document: ProtocolDocument;
  readonly after: ProtocolVersionView;
}

/** The editor of a protocol: the next version of one of the lab, or a new one that begins as another stands. */
export function EditScreen() {
  const lab: LabId = useLab() ?? 'lab';
  const { id = 'new' } = useParams();
  const [search] = useSearchParams();
  const from = search.get('from') ?? 'imtp';
  const isNew = id === 'new';
  usePageTitle(isNew ? t.edit.newTitle : t.title);
  const found = useQuery({ ...protocolQuery(lab, isNew ? from : id), refetchOnWindowFocus: false, staleTime: 60_000 });
  const newest = isNew
    ? (found.data?.versions.find(({ sha256 }) => sha256 === from) ?? found.data?.versions[0])
    : found.data?.versions[0];
  const makes = useMay()(protocolRoutes.createProtocol);
  const back = isNew || found.data?.builtIn ? `/${lab}/protocols` : `/${lab}/protocols/${id}`;
  return (
    <section className="page live-page protocol-page">
      <Link className="way-back" to={back}>
        <Icon name="left" size={16} /> {t.back}
      </Link>
      {!makes ? (
        <>
          <h1>{isNew ? t.edit.newTitle : t.title}</h1>
          <Elsewhere unless={protocolRoutes.createProtocol} about="protocols" />
        </>
      ) : found.isError ? (
        <ProblemCard page error={found.error} onRetry={() => void found.refetch()} />
      ) : newest === undefined ? (
        <p className="soft" role="status">
          {words.app.loading}
        </p>
      ) : (
        <Editor
          key={`${id} ${newest.sha256}`}
          lab={lab}
          beginning={{
            ...(isNew || found.data?.builtIn ? {} : { id }),
            document: newest.document as ProtocolDocument,
            after: newest,
          }}
        />
      )}
    </section>
  );
}
