import type { LabId, RigDraft, RigView, StoredSourceView } from '@sthene/contract';
import { useId, useState } from 'react';
import { useRigAct } from '../../data/rigs.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { RigLetter } from '../../parts/rig-letter.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { rigWords } from '../../words/rig.ts';
import { freeMarks, letters, shapes } from './rig-marks.ts';

interface RigFormProps {
  readonly lab: LabId;
  readonly rigs: readonly RigView[];
  readonly sources: readonly StoredSourceView[];
  /** The rig that is changed; absent: a new one. */
  readonly rig?: RigView;
  onClose(): void;
}

/** Name, letter, shape and sources of a rig. */
export function RigForm({ lab, rigs, sources, rig, onClose }: RigFormProps) {
  const t = rigWords.form;
  const act = useRigAct(lab);
  const by = useSigned();
  const say = useSay();
  const id = useId();
  const taken = rigs.filter((one) => one.id !== rig?.id);
  const [draft, setDraft] = useState<RigDraft>(() => ({
    name: rig?.name ?? '',
    ...(rig === undefined ? freeMarks(taken) : { letter: rig.letter, shape: rig.shape }),
    sources: rig?.sources.map((source) => source.id) ?? sources.slice(0, 1).map((source) => source.id),
    notes: rig?.notes ?? '',
  }));
  const [tried, setTried] = useState(false);
  const missing = draft.name.trim() === '' || draft.sources.length === 0;
  return (
    <form
      className="panel rig-form"
      onSubmit={(event) => {
        event.preventDefault();
        setTried(true);
        if (missing) return;
        if (!by) return say(dayWords.sign.needed);
        act.mutate(
          { kind: 'keep', id: rig?.id, draft: { ...draft, name: draft.name.trim() }, by },
          {
            onSuccess: () => {
              say(rigWords.saved);
              onClose();
            },
          },
        );
      }}
    >
      <h2>{rig ? t.changeTitle : t.title}</h2>
      <div className="field">
        <label htmlFor={`${id}name`}>{t.name}</label>
        <input
          id={`${id}name`}
          value={draft.name}
          maxLength={100}
          placeholder={t.nameHint}
          onChange={(event) => setDraft({ ...draft, name: event.target.value })}
        />
      </div>
      <div className="field">
        <label htmlFor={`${id}letter`}>{t.letter}</label>
        <select
          id={`${id}letter`}
          value={draft.letter}
          onChange={(event) => setDraft({ ...draft, letter: event.target.value })}
        >
          {letters.map((letter) => (
            <option key={letter}>{letter}</option>
          ))}
        </select>
      </div>
      <fieldset>
        <legend>{t.shape}</legend>
        <div className="acts">
          {shapes.map((shape) => (
            <label key={shape} className="check-line">
              <input
                type="radio"
                name={`${id}shape`}
                checked={draft.shape === shape}
                onChange={() => setDraft({ ...draft, shape })}
              />
              <RigLetter letter={draft.letter} shape={shape} /> {t.shapes[shape]}
            </label>
          ))}
        </div>
      </fieldset>
      <fieldset>
        <legend>{t.sources}</legend>
        {sources.map((source) => (
          <label key={source.id} className="check-line">
            <input
              type="checkbox"
              checked={draft.sources.includes(source.id)}
              onChange={(event) =>
                setDraft({
                  ...draft,
                  sources: event.target.checked
                    ? [...draft.sources, source.id]
                    : draft.sources.filter((one) => one !== source.id),
                })
              }
            />
            {source.name}
          </label>
        ))}
        <p className="small soft">{t.sourcesHelp}</p>
      </fieldset>
      {tried && missing && (
        <p className="field-error" role="alert">
          {t.needs}
        </p>
      )}
      {act.isError && <ProblemCard error={act.error} />}
      <div className="acts">
        <button type="submit" className="button main" disabled={act.isPending}>
          {t.act}
        </button>
        <button type="button" className="button" onClick={onClose}>
          {rigWords.cancel}
        </button>
      </div>
    </form>
  );
}
