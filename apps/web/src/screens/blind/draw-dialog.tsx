import type { LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { squadTableQuery } from '../../data/athletes.ts';
import { useCreateBlindStudy } from '../../data/follow.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { blindWords } from '../../words/blind.ts';
import { Choice } from '../athletes/choice.tsx';
import { testTitle } from '../trial/test-title.ts';

/** Asks what to draw, and who reads. */
export function DrawDialog({ lab, onClose }: { lab: LabId; onClose: () => void }) {
  const t = blindWords.form;
  const create = useCreateBlindStudy(lab);
  const { data } = useQuery(squadTableQuery(lab, {}));
  const by = useSigned();
  const [title, setTitle] = useState('');
  const [test, setTest] = useState('');
  const [squad, setSquad] = useState('');
  const [trials, setTrials] = useState(20);
  const [readers, setReaders] = useState<readonly [string, string]>(['', '']);
  const [seed, setSeed] = useState(() => Math.floor(Math.random() * 1_000_000));
  const [tried, setTried] = useState(false);
  const ids = { title: useId(), trials: useId(), seed: useId(), first: useId(), second: useId() };
  const names = readers.map((name) => name.trim());
  const missing = title.trim() === '' || names.includes('') || names[0] === names[1];
  const send = () => {
    setTried(true);
    const chosen = test || data?.test;
    if (missing || by === '' || chosen === undefined) return;
    create.mutate(
      { title: title.trim(), test: chosen, ...(squad === '' ? {} : { squad }), trials, readers: names, seed, by },
      { onSuccess: onClose },
    );
  };
  return (
    <Dialog title={blindWords.draw} onClose={onClose}>
      <form
        className="dialog-form"
        onSubmit={(event) => {
          event.preventDefault();
          send();
        }}
      >
        <label htmlFor={ids.title}>{t.title}</label>
        <input
          id={ids.title}
          value={title}
          placeholder={t.titleUsual}
          maxLength={200}
          onChange={(event) => setTitle(event.target.value)}
        />
        <Choice label={t.test} value={test || (data?.test ?? '')} onChange={setTest}>
          {data?.tests.map(({ id }) => (
            <option key={id} value={id}>
              {testTitle(id)}
            </option>
          ))}
        </Choice>
        <Choice label={t.squad} value={squad} onChange={setSquad}>
          <option value="">{t.everybody}</option>
          {data?.squads.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </Choice>
        <label htmlFor={ids.trials}>{t.trials}</label>
        <input
          id={ids.trials}
          type="number"
          min={3}
          max={200}
          required
          value={trials}
          onChange={(event) => setTrials(Number(event.target.value))}
        />
        {([0, 1] as const).map((at) => (
          <div className="field" key={at}>
            <label htmlFor={at === 0 ? ids.first : ids.second}>{t.reader(at + 1)}</label>
            <input
              id={at === 0 ? ids.first : ids.second}
              value={readers[at]}
              maxLength={100}
              onChange={(event) =>
                setReaders(at === 0 ? [event.target.value, readers[1]] : [readers[0], event.target.value])
              }
            />
          </div>
        ))}
        <label htmlFor={ids.seed}>{t.seed}</label>
        <input
          id={ids.seed}
          type="number"
          min={0}
          max={4294967295}
          required
          value={seed}
          onChange={(event) => setSeed(Number(event.target.value))}
        />
        <p className="small soft">{t.seedHelp}</p>
        <SignFirst />
        {tried && missing && (
          <p className="field-error small" role="alert">
            {t.missing}
          </p>
        )}
        {create.isError && <ProblemCard error={create.error} />}
        <div className="dialog-acts">
          <button type="submit" className="button main" disabled={create.isPending || data === undefined}>
            {t.create}
          </button>
          <button type="button" className="button" onClick={onClose}>
            {t.cancel}
          </button>
        </div>
      </form>
    </Dialog>
  );
}
