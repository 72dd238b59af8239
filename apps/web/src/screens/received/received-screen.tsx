import type { LabId, ReceivedImport } from '@sthene/contract';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { Link } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import {
  exchangeAddress,
  receivedFileAddress,
  receivedQuery,
  takeBack,
  touchedByResults,
} from '../../data/received.ts';
import { whenText } from '../../number/when.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { words } from '../../words/index.ts';
import { receivedWords } from '../../words/received.ts';
import './received.css';

/** Tables that were brought in: each may be taken back as a whole, and everything may be taken out. */
export function ReceivedScreen() {
  const t = receivedWords.list;
  usePageTitle(t.title);
  const lab = useLab() ?? 'lab';
  const list = useQuery(receivedQuery(lab));
  return (
    <section className="page results-page" aria-busy={list.isFetching}>
      <Link to={`/${lab}/import`} className="way-back">
        <Icon name="left" size={16} />
        {receivedWords.screen.back}
      </Link>
      <h1>{t.title}</h1>
      <SignFirst />
      {list.isError && <ProblemCard error={list.error} onRetry={() => void list.refetch()} />}
      {!list.data && !list.isError && (
        <p className="waiting" role="status">
          {words.app.loading}
        </p>
      )}
      {list.data?.length === 0 && <p className="soft">{t.none}</p>}
      <ul className="results-imports">
        {list.data?.map((one) => (
          <ImportRow key={one.id} lab={lab} one={one} />
        ))}
      </ul>
      <div className="results-exchange">
        <a className="button" href={exchangeAddress(lab)} download>
          {t.exchange}
        </a>
        <p className="small soft">{t.exchangeText}</p>
      </div>
    </section>
  );
}

function ImportRow({ lab, one }: { lab: LabId; one: ReceivedImport }) {
  const t = receivedWords.list;
  const [asking, setAsking] = useState(false);
  const [reason, setReason] = useState('');
  const by = useSigned();
  const client = useQueryClient();
  const id = useId();
  const act = useMutation({
    mutationFn: (takenBack: boolean) => takeBack(lab, one.id, { takenBack, reason, by }),
    onSuccess: () => {
      setAsking(false);
      for (const touched of touchedByResults) void client.invalidateQueries({ queryKey: [touched] });
    },
  });
  return (
    <li className="results-import" data-back={one.takenBack}>
      <div>
        <b>{one.fileName}</b> {one.takenBack && <span className="results-back">{t.takenBack}</span>}
        <p className="small">
          {t.what(one.sessions, one.values)} {'\u00b7'} {one.labels.map(receivedWords.label).join('; ')}
        </p>
        <p className="small soft">
          {whenText(one.importedAt)} {'\u00b7'} {one.by} {'\u00b7'}{' '}
          <a href={receivedFileAddress(lab, one.id)} download={one.fileName}>
            {t.download}
          </a>
        </p>
      </div>
      <button
        type="button"
        className="button"
        disabled={by === '' || act.isPending}
        onClick={() => (one.takenBack ? act.mutate(false) : setAsking(true))}
      >
        {one.takenBack ? t.putBack : t.takeBack}
      </button>
      {act.isError && <ProblemCard error={act.error} />}
      {asking && (
        <Dialog title={t.sure(one.fileName)} onClose={() => setAsking(false)}>
          <p>{t.sureText}</p>
          <div className="field">
            <label htmlFor={id}>{t.reason}</label>
            <input id={id} value={reason} maxLength={500} onChange={(event) => setReason(event.target.value)} />
          </div>
          <div className="acts">
            <button type="button" className="button" onClick={() => setAsking(false)}>
              {t.cancel}
            </button>
            <button type="button" className="button main" disabled={act.isPending} onClick={() => act.mutate(true)}>
              {t.takeBack}
            </button>
          </div>
        </Dialog>
      )}
    </li>
  );
}
