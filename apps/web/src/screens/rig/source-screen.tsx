import { type LabId, liveRoutes, type StoredSourceView } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { Link, useNavigate, useParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useMay } from '../../data/access.ts';
import { sourcesQuery, useKeepSource } from '../../data/rigs.ts';
import { Elsewhere } from '../../parts/elsewhere.tsx';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { words } from '../../words/index.ts';
import { rigWords } from '../../words/rig.ts';
import { CalibrationPart } from './form/calibration-part.tsx';
import { ChannelsPart } from './form/channels-part.tsx';
import { FileActs } from './form/file-acts.tsx';
import { formOf } from './form/from-document.ts';
import { LayoutPart } from './form/layout-part.tsx';
import { ListenPanel } from './form/listen-panel.tsx';
import { Faults, TextField } from './form/parts.tsx';
import { emptyForm, mayCalibrate, needsLayout } from './form/source-form.ts';
import { documentOf } from './form/to-document.ts';
import { TransportPart } from './form/transport-part.tsx';
import { useFaults } from './form/use-faults.ts';
import '../../parts/form.css';
import './rig.css';

/** A source described by data: how bytes come in, what they mean, and what comes when one listens. */
export function SourceScreen() {
  usePageTitle(rigWords.source.newTitle);
  const lab = useLab() ?? 'lab';
  const { id = 'new' } = useParams();
  const changes = useMay()(liveRoutes.changeSource);
  const sources = useQuery({ ...sourcesQuery(lab), enabled: changes });
  const source = sources.data?.find((one) => one.id === id);
  const ready = id === 'new' || source !== undefined;
  return (
    <section className="page live-page rig-page">
      <Link className="way-back" to={`/${lab}/rig`}>
        <Icon name="left" size={16} /> {rigWords.back}
      </Link>
      {!changes ? (
        <>
          <h1>{id === 'new' ? rigWords.source.newTitle : rigWords.source.changeTitle}</h1>
          <Elsewhere unless={liveRoutes.changeSource} about="source" />
        </>
      ) : ready ? (
        <Editor key={id} lab={lab} source={source} />
      ) : sources.isPending ? (
        <p className="soft" role="status">
          {words.app.loading}
        </p>
      ) : sources.isError ? (
        <ProblemCard page error={sources.error} onRetry={() => void sources.refetch()} />
      ) : (
        <>
          <h1>{words.app.notFound}</h1>
          <p className="soft">{words.app.notFoundNext}</p>
        </>
      )}
    </section>
  );
}

function Editor({ lab, source }: { lab: LabId; source: StoredSourceView | undefined }) {
  const t = rigWords.source;
  const [form, setForm] = useState(() => (source ? formOf(source.description) : emptyForm));
  const [tried, setTried] = useState(source !== undefined);
  const { looked, faults } = useFaults(lab, form);
  const keep = useKeepSource(lab);
  const navigate = useNavigate();
  const by = useSigned();
  const say = useSay();
  const id = useId();
  const complete = looked.ok && faults.length === 0;
  const set = (part: Partial<typeof form>) => setForm({ ...form, ...part });
  return (
    <Faults value={tried ? faults : []}>
      <div className="page-head">
        <h1>{source ? t.changeTitle : t.newTitle}</h1>
        <p className="soft">{t.lead}</p>
      </div>
      <SignFirst />
      <FileActs form={form} setForm={setForm} />
      <div className="source-columns">
        <form
          className="source-form"
          noValidate
          onSubmit={(event) => {
            event.preventDefault();
            setTried(true);
            if (!looked.ok || !complete) return;
            if (!by) return say(dayWords.sign.needed);
            keep.mutate(
              { id: source?.id, description: looked.description, by },
              {
                onSuccess: () => {
                  say(t.kept);
                  void navigate(`/${lab}/rig`);
                },
              },
            );
          }}
        >
          <section className="panel field-grid">
            <TextField label={t.name} path="name" value={form.name} onChange={(name) => set({ name })} />
            <TextField label={t.rate} path="rate" number value={form.rate} onChange={(rate) => set({ rate })} />
          </section>
          <TransportPart lab={lab} form={form} setForm={setForm} />
          {needsLayout(form.kind) && (
            <LayoutPart
              layout={form.layout}
              channels={form.channels.map(({ name }) => name)}
              onChange={(layout) => set({ layout })}
            />
          )}
          <ChannelsPart
            own={!needsLayout(form.kind) && form.stream.labels.length === 0}
            channels={form.channels}
            onChange={(channels) => set({ channels })}
          />
          {mayCalibrate(form.kind) && <CalibrationPart form={form} onChange={set} />}
          <section className="panel">
            <div className="field">
              <label htmlFor={`${id}notes`}>{t.notes}</label>
              <textarea id={`${id}notes`} value={form.notes} onChange={(event) => set({ notes: event.target.value })} />
            </div>
          </section>
          {keep.isError && <ProblemCard error={keep.error} />}
          <div className="acts source-end">
            <button type="submit" className="button main" disabled={keep.isPending}>
              {t.keep}
            </button>
            <p className={complete ? 'soft' : tried ? 'field-error' : 'soft'} role="status">
              {complete ? t.fine : t.faulty(faults.length)}
            </p>
          </div>
          {tried && faults.length > 0 && (
            <ul className="dots small">
              {faults.map((one) => (
                <li key={`${one.path}${one.words}`}>
                  <span className="number">{one.path || 'file'}</span>: {one.words}
                </li>
              ))}
            </ul>
          )}
        </form>
        <ListenPanel
          lab={lab}
          document={documentOf(form)}
          onRate={(rate) => set({ rate: String(rate) })}
          onUse={(description) => {
            // Layout and channels come from what was seen; name and transport stay as they were written.
            const { layout, channels } = formOf(description);
            set({ layout, channels });
            say(rigWords.listen.used);
          }}
        />
      </div>
    </Faults>
  );
}
