import type { FoundStreams, LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { streamsQuery } from '../../../data/rigs.ts';
import { ProblemCard } from '../../../parts/problem-card.tsx';
import { useSay } from '../../../parts/status.tsx';
import { rigWords } from '../../../words/rig.ts';
import { formOf } from './from-document.ts';
import { numberOf } from './number-of.ts';
import type { SourceForm } from './source-form.ts';

interface PickerProps {
  readonly lab: LabId;
  readonly form: SourceForm;
  setForm(form: SourceForm): void;
}

/** Streams that answer now; choosing one fills in how it is known, its rate and its channels. Nobody is asked before it is wished. */
export function StreamPicker({ lab, form, setForm }: PickerProps) {
  const t = rigWords.streams;
  const say = useSay();
  const { host, port, labels } = form.stream;
  const number = numberOf(port);
  const query = useQuery({
    ...streamsQuery(lab, {
      ...(host.trim() === '' ? {} : { host: host.trim() }),
      ...(host.trim() === '' || typeof number !== 'number' ? {} : { port: number }),
    }),
    enabled: false,
    retry: false,
  });
  const choose = ({ description }: Stream) => {
    if (description === undefined) return;
    const { stream, rate, channels, name } = formOf(description);
    setForm({ ...form, stream, rate, channels, name: form.name.trim() === '' ? name : form.name, calibration: [] });
    say(t.used);
  };
  return (
    <div className="stream-picker">
      <div className="acts">
        <button type="button" className="button" disabled={query.isFetching} onClick={() => void query.refetch()}>
          {query.isFetching ? t.looking : t.look}
        </button>
      </div>
      {query.isError && <ProblemCard error={query.error} />}
      {query.data && !query.isError && <Found found={query.data} chosen={form.stream} onChoose={choose} />}
      {labels.length > 0 && <p className="small soft">{t.labels(labels.join(', '))}</p>}
    </div>
  );
}

type Stream = FoundStreams['streams'][number];

interface FoundProps {
  readonly found: FoundStreams;
  readonly chosen: SourceForm['stream'];
  onChoose(stream: Stream): void;
}

function Found({ found, chosen, onChoose }: FoundProps) {
  const t = rigWords.streams;
  if (found.streams.length === 0)
    return (
      <p className="small soft" role="status">
        {found.problem === undefined ? t.none : t.failed(found.problem)}
      </p>
    );
  return (
    <ul className="ports small" aria-label={t.title}>
      {found.streams.map((stream) => {
        const { name, type, sourceId, hostname, address, description, words } = stream;
        return (
          <li key={`${sourceId} ${address} ${name} ${hostname}`}>
            <button
              type="button"
              className="button"
              disabled={description === undefined}
              aria-pressed={chosen.name === name && chosen.sourceId === sourceId && chosen.type === type}
              onClick={() => onChoose(stream)}
            >
              {name || t.unnamed}
            </button>{' '}
            <span className="soft">
              {[type, t.facts(stream.channelCount, stream.rate), sourceId, hostname || address, words]
                .filter(Boolean)
                .join(', ')}
            </span>
          </li>
        );
      })}
    </ul>
  );
}
