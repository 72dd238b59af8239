import type { AthleteNoteDraft, AthleteView, LabId } from '@sthene/contract';
import { useId, useState } from 'react';
import { useAddNote } from '../../data/follow.ts';
import { unitText } from '../../number/format.ts';
import { dayText } from '../../number/when.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { followWords } from '../../words/follow.ts';
import { Choice } from '../athletes/choice.tsx';

type Kind = AthleteNoteDraft['kind'];
const kinds: readonly Kind[] = ['remark', 'injury', 'target', 'position'];
const limbs = ['left', 'right', 'both'] as const;

/** Writes something down; what is asked depends on what it is. A target is of the value the page shows. */
export function NoteDialog({ lab, view, onClose }: { lab: LabId; view: AthleteView; onClose: () => void }) {
  const t = followWords.notes.form;
  const add = useAddNote(lab, view.person.id);
  const by = useSigned();
  const [kind, setKind] = useState<Kind>('remark');
  const [from, setFrom] = useState(() => dayText(new Date().toISOString()));
  const [until, setUntil] = useState('');
  const [text, setText] = useState('');
  const [limb, setLimb] = useState<(typeof limbs)[number]>('left');
  const [value, setValue] = useState('');
  const ids = { from: useId(), until: useId(), text: useId(), value: useId() };
  const needsText = kind === 'remark' || kind === 'position';
  const send = () => {
    if (by === '') return;
    const target = { metric: view.metric.id, value: Number(value.replace(',', '.')), unit: view.metric.unit };
    add.mutate(
      {
        ...{ kind, from, text: text.trim(), by },
        ...(until === '' || kind === 'remark' || kind === 'injury' ? {} : { until }),
        ...(kind === 'injury' ? { limb } : {}),
        ...(kind === 'target' ? { target, ...(view.test === undefined ? {} : { test: view.test }) } : {}),
      },
      { onSuccess: onClose },
    );
  };
  return (
    <Dialog title={followWords.notes.add} onClose={onClose}>
      <form
        className="dialog-form"
        onSubmit={(event) => {
          event.preventDefault();
          send();
        }}
      >
        <Choice label={t.kind} value={kind} onChange={(one) => setKind(one as Kind)}>
          {kinds.map((one) => (
            <option key={one} value={one}>
              {followWords.notes.kind[one]}
            </option>
          ))}
        </Choice>
        {kind === 'injury' && (
          <Choice label={t.limb} value={limb} onChange={(one) => setLimb(one as typeof limb)}>
            {limbs.map((one) => (
              <option key={one} value={one}>
                {t.limbs[one]}
              </option>
            ))}
          </Choice>
        )}
        {kind === 'target' && (
          <div className="field">
            <label htmlFor={ids.value}>
              {view.metric.title}: {t.value(unitText(view.metric.unit))}
            </label>
            <input
              id={ids.value}
              inputMode="decimal"
              required
              pattern="-?[0-9]+([.,][0-9]+)?"
              value={value}
              onChange={(event) => setValue(event.target.value)}
            />
          </div>
        )}
        <div className="field">
          <label htmlFor={ids.from}>{kind === 'injury' ? t.fromInjury : t.from}</label>
          <input id={ids.from} type="date" required value={from} onChange={(event) => setFrom(event.target.value)} />
        </div>
        {(kind === 'target' || kind === 'position') && (
          <div className="field">
            <label htmlFor={ids.until}>{t.until}</label>
            <input id={ids.until} type="date" value={until} onChange={(event) => setUntil(event.target.value)} />
          </div>
        )}
        <div className="field">
          <label htmlFor={ids.text}>{t.text}</label>
          <textarea
            id={ids.text}
            required={needsText}
            maxLength={2000}
            value={text}
            onChange={(event) => setText(event.target.value)}
          />
        </div>
        {kind === 'injury' && <p className="small soft">{t.told}</p>}
        <SignFirst />
        {add.isError && <ProblemCard error={add.error} />}
        <div className="dialog-acts">
          <button type="submit" className="button main" disabled={add.isPending || by === ''}>
            {t.save}
          </button>
          <button type="button" className="button" onClick={onClose}>
            {t.cancel}
          </button>
        </div>
      </form>
    </Dialog>
  );
}
