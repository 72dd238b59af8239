import type { BlindReadingDraft, BlindTask, LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link, useParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { blindTaskQuery, useReadBlind } from '../../data/follow.ts';
import { useCurve } from '../../data/queries.ts';
import { numberText } from '../../number/format.ts';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { blindWords } from '../../words/blind.ts';
import { words } from '../../words/index.ts';
import { BlindCurve } from './blind-curve.tsx';
import '../sessions/sessions.css';
import './blind.css';

type Verdict = BlindReadingDraft['verdict'];
const verdicts: readonly Verdict[] = ['counts', 'look-again', 'repeat'];

/** One trial after the other: place the onset, judge, go on. */
export function ReadScreen() {
  usePageTitle(blindWords.title);
  const lab = useLab() ?? 'lab';
  const { id = '', reader = '0' } = useParams();
  const task = useQuery(blindTaskQuery(lab, id, Number(reader)));
  const { data } = task;
  return (
    <section className="page blind-page" aria-busy={task.isFetching}>
      <Link to={`/${lab}/blind`} className="way-back">
        <Icon name="left" size={16} />
        {blindWords.back}
      </Link>
      {task.isError && <ProblemCard error={task.error} onRetry={() => void task.refetch()} />}
      {data && <Reading key={data.trial?.id ?? 'done'} lab={lab} task={data} />}
    </section>
  );
}

function Reading({ lab, task }: { lab: LabId; task: BlindTask }) {
  const t = blindWords.task;
  const name = task.study.readers[task.reader]?.name ?? '';
  const { trial } = task;
  return (
    <>
      <div className="page-head">
        <h1>{task.study.title}</h1>
        <p className="soft">
          {blindWords.read(name)}. {trial && t.progress(trial.number, trial.of)}
        </p>
      </div>
      {trial === undefined ? (
        <p className="nothing">{task.study.closed ? t.closed : t.done}</p>
      ) : (
        <OneTrial lab={lab} task={task} trial={trial.id} name={name} />
      )}
    </>
  );
}

interface TrialProps {
  readonly lab: LabId;
  readonly task: BlindTask;
  readonly trial: string;
  readonly name: string;
}

function OneTrial({ lab, task, trial, name }: TrialProps) {
  const t = blindWords.task;
  const curve = useCurve(lab, trial);
  const keep = useReadBlind(lab, task.study.id);
  const [onset, setOnset] = useState<number>();
  const [none, setNone] = useState(false);
  const [verdict, setVerdict] = useState<Verdict>();
  const [tried, setTried] = useState(false);
  const ready = verdict !== undefined && (onset !== undefined || none);
  const { data } = curve;
  const send = () => {
    setTried(true);
    if (!ready || verdict === undefined) return;
    keep.mutate({ reader: task.reader, trial, verdict, by: name, ...(none || onset === undefined ? {} : { onset }) });
  };
  return (
    <form
      className="blind-reading"
      onSubmit={(event) => {
        event.preventDefault();
        send();
      }}
    >
      <p className="small soft">{t.blind}</p>
      {curve.isError && <ProblemCard error={curve.error} onRetry={() => void curve.refetch()} />}
      {!data && !curve.isError && <p role="status">{words.app.loading}</p>}
      {data && (
        <BlindCurve
          curve={data}
          onset={none ? undefined : onset}
          onPlace={(sample) => {
            setNone(false);
            setOnset(Math.round(sample));
          }}
        />
      )}
      <fieldset className="blind-choice">
        <legend>{t.onset}</legend>
        <span role="status">
          {!none && onset === undefined && t.notPlaced}
          {!none && onset !== undefined && data && t.at(numberText(onset / data.sampleRate, 3))}
        </span>
        <label>
          <input type="checkbox" checked={none} onChange={(event) => setNone(event.target.checked)} />
          {t.noOnset}
        </label>
      </fieldset>
      <fieldset className="blind-choice">
        <legend>{t.verdict}</legend>
        {verdicts.map((one) => (
          <label key={one}>
            <input type="radio" name="blind-verdict" checked={verdict === one} onChange={() => setVerdict(one)} />
            {t.verdicts[one]}
          </label>
        ))}
      </fieldset>
      {tried && !ready && (
        <p className="field-error small" role="alert">
          {t.needs}
        </p>
      )}
      {keep.isError && <ProblemCard error={keep.error} />}
      <div className="acts">
        <button type="submit" className="button main" disabled={keep.isPending}>
          {t.keep}
        </button>
      </div>
    </form>
  );
}
