import { useId, useState } from 'react';
import { useCreateLab } from '../../data/labs.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSay } from '../../parts/status.tsx';
import { startWords as t } from '../../words/start.ts';

/** One field: the name of the lab. */
export function SetUpLab() {
  const [name, setName] = useState('');
  const create = useCreateLab('lab');
  const say = useSay();
  const id = useId();
  return (
    <form
      className="set-up"
      onSubmit={(event) => {
        event.preventDefault();
        const chosen = name.trim() || t.lab.preset;
        create.mutate(chosen, { onSuccess: () => say(t.lab.ready(chosen)) });
      }}
    >
      <label htmlFor={id}>{t.lab.name}</label>
      <div className="set-up-line">
        <input
          id={id}
          value={name}
          maxLength={100}
          placeholder={t.lab.preset}
          autoComplete="organization"
          onChange={(event) => setName(event.target.value)}
        />
        <button type="submit" className="button" disabled={create.isPending}>
          {t.lab.act}
        </button>
      </div>
      {create.isError && <ProblemCard error={create.error} />}
    </form>
  );
}
