import type { LabId, Person } from '@sthene/contract';
import { useEffect, useEffectEvent, useId, useRef, useState } from 'react';
import { usePeople } from '../../data/use-people.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { importWords } from '../../words/importing.ts';
import { NewAthlete } from './new-athlete.tsx';
import type { Who } from './state.ts';
import { exactly, known, matching, newFrom, personName } from './who-name.ts';

const shown = 8;

interface WhoFieldProps {
  readonly lab: LabId;
  readonly label?: string;
  readonly who: Who | undefined;
  onChange(who: Who | undefined): void;
}

/** An athlete by name or code: one who is there, or a new one made in place. */
export function WhoField({ lab, label, who, onChange }: WhoFieldProps) {
  const t = importWords.athlete;
  const { people, whole, error, again } = usePeople(lab);
  const [typed, setTyped] = useState('');
  const [open, setOpen] = useState(false);
  const [at, setAt] = useState(0);
  const [editing, setEditing] = useState(false);
  const [entered, setEntered] = useState(false);
  const input = useRef<HTMLInputElement>(null);
  const back = useRef(false);
  const id = useId();
  useEffect(() => {
    if (who === undefined && back.current) input.current?.focus();
    back.current = false;
  }, [who]);

  const found = matching(people, typed).slice(0, shown);
  const offersNew = whole && typed.trim() !== '' && exactly(people, typed) === undefined;
  const count = found.length + (offersNew ? 1 : 0);
  // What is typed holds at once, so that one can go on without closing the field; half a known name is never guessed.
  const decide = (text: string) => {
    const same = exactly(people, text);
    if (same) onChange(known(same));
    else if (whole && text.trim() !== '' && matching(people, text).length === 0) onChange(newFrom(text));
    else onChange(undefined);
  };
  const type = (text: string) => {
    setTyped(text);
    setEditing(true);
    setEntered(false);
    setOpen(true);
    setAt(0);
    decide(text);
  };
  const choose = (place: number) => {
    setEditing(false);
    setEntered(false);
    const person = found[place];
    if (person) onChange(known(person));
    else if (offersNew) onChange(newFrom(typed));
    setOpen(false);
  };
  // Who types faster than the list comes is not asked twice.
  const arrived = useEffectEvent(() => {
    if (entered) choose(0);
    else if (editing) decide(typed);
  });
  useEffect(() => {
    if (whole) arrived();
  }, [whole]);

  if (who && !editing)
    return (
      <Chosen
        label={label ?? t.who}
        who={who}
        people={people}
        onChange={onChange}
        onBack={() => {
          back.current = true;
          setTyped('');
          onChange(undefined);
        }}
      />
    );

  const listed = open && count > 0;
  return (
    <div className="field who">
      <label htmlFor={id}>{label ?? t.who}</label>
      <div className="who-box">
        <input
          ref={input}
          id={id}
          role="combobox"
          aria-expanded={listed}
          aria-controls={`${id}list`}
          aria-autocomplete="list"
          {...(listed ? { 'aria-activedescendant': `${id}o${at}` } : {})}
          autoComplete="off"
          value={typed}
          placeholder={whole && people.length === 0 ? t.whoNone : t.whoHint}
          onChange={(event) => type(event.target.value)}
          onFocus={() => setOpen(people.length > 0)}
          onBlur={() => setOpen(false)}
          onKeyDown={(event) => {
            if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
              event.preventDefault();
              setOpen(true);
              if (count > 0) setAt((at + (event.key === 'ArrowDown' ? 1 : count - 1)) % count);
            } else if (event.key === 'Enter' && count > 0 && (open || typed.trim() !== '')) {
              event.preventDefault();
              choose(at);
            } else if (event.key === 'Enter' && !whole && typed.trim() !== '') {
              event.preventDefault();
              setEntered(true);
            } else if (event.key === 'Escape') setOpen(false);
          }}
        />
        <div id={`${id}list`} role="listbox" aria-label={label ?? t.who} className="who-list" hidden={!listed}>
          {found.map((person, i) => (
            <Option key={person.id} id={`${id}o${i}`} chosen={i === at} onChoose={() => choose(i)}>
              {t.chosen(personName(person), person.code, person.sessions)}
            </Option>
          ))}
          {offersNew && (
            <Option id={`${id}o${found.length}`} chosen={at === found.length} onChoose={() => choose(found.length)}>
              {t.addNew(typed.trim())}
            </Option>
          )}
        </div>
      </div>
      <p className="small soft who-said" role="status">
        {typed.trim() === ''
          ? ''
          : !whole && who === undefined
            ? t.looking
            : who?.kind === 'known'
              ? `${who.name}, ${who.code}`
              : who
                ? t.willAdd(who.givenName, who.familyName)
                : t.matches(found.length)}
      </p>
      {error !== null && <ProblemCard error={error} onRetry={again} />}
    </div>
  );
}

interface OptionProps {
  readonly id: string;
  readonly chosen: boolean;
  readonly children: string;
  onChoose(): void;
}

function Option({ id, chosen, children, onChoose }: OptionProps) {
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: keys act on the field, which keeps the focus
    <div
      id={id}
      role="option"
      aria-selected={chosen}
      tabIndex={-1}
      onPointerDown={(event) => event.preventDefault()}
      onClick={onChoose}
    >
      {children}
    </div>
  );
}

interface ChosenProps {
  readonly label: string;
  readonly who: Who;
  readonly people: readonly Person[];
  onChange(who: Who): void;
  onBack(): void;
}

function Chosen({ label, who, people, onChange, onBack }: ChosenProps) {
  const t = importWords.athlete;
  const person = who.kind === 'known' ? people.find(({ id }) => id === who.id) : undefined;
  return (
    <fieldset className="who-chosen">
      <legend>{label}</legend>
      <div className="who-face">
        {who.kind === 'known' ? (
          <b>{person ? t.chosen(who.name, who.code, person.sessions) : `${who.name}, ${who.code}`}</b>
        ) : (
          <b>{t.newOne}</b>
        )}
        <button type="button" className="link" onClick={onBack}>
          {t.change}
        </button>
      </div>
      {who.kind === 'new' && <NewAthlete who={who} onChange={onChange} />}
    </fieldset>
  );
}
