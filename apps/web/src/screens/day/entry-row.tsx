import type { Day, DayEntry, LabId } from '@sthene/contract';
import { useId } from 'react';
import type { useDayAct } from '../../data/days.ts';
import { countdownText } from '../../number/duration.ts';
import { Icon } from '../../parts/icon.tsx';
import { StateMark } from '../../parts/state-mark.tsx';
import { dayWords as t } from '../../words/day.ts';
import { testTitle } from '../trial/test-title.ts';
import { EntryDetails } from './entry-details.tsx';
import { GateMark } from './gate-mark.tsx';
import { useRigLetter } from './rig-names.ts';
import { heatWords, restLeft } from './standing.ts';
import { EntryMark } from './status-mark.tsx';

export interface EntryRowProps {
  readonly lab: LabId;
  readonly day: Day;
  readonly entry: DayEntry;
  readonly act: ReturnType<typeof useDayAct>;
  readonly place: number;
  readonly of: number;
  readonly now: number;
  readonly receivedAt: number;
  readonly pace: number;
  /** Whether this device may change anything; else the line is only read. */
  readonly runs: boolean;
  readonly open: boolean;
  readonly drop: 'before' | 'after' | undefined;
  readonly dragged: boolean;
  /** Where a heat begins with this entry: its number. */
  readonly heat: number | undefined;
  /** Where a test of a battery begins with this entry, one test for all. */
  readonly test: string | undefined;
  /** A further test of the athlete of the line before. */
  readonly follows: boolean;
  /** Not among those looked for. */
  readonly hidden: boolean;
  onToggle(): void;
  /** True when the key moved the entry. */
  onKey(pressed: string): boolean;
  onMove(delta: 1 | -1): void;
  onDrag(y: number): void;
  onDrop(): void;
  onCancel(): void;
}

/** One athlete of the day: place, name, state, efforts, gates. Opens to everything that can be said and done. */
export function EntryRow(props: EntryRowProps) {
  const { entry, place, open, runs, day } = props;
  const { person } = entry;
  const id = useId();
  const total = entry.efforts.length + entry.remaining.length;
  const letter = useRigLetter(props.lab);
  const gates = entry.gates.filter(({ effect }) => effect !== 'notes');
  return (
    <li
      className="entry"
      hidden={props.hidden}
      data-drop={props.drop}
      data-dragged={props.dragged}
      data-state={entry.state}
      data-follows={props.follows}
    >
      {props.test !== undefined && <h3 className="entry-heat">{testTitle(props.test)}</h3>}
      {props.heat !== undefined && (
        <h3 className="entry-heat">
          {/* Before a day has begun nobody knows when a heat does. */}
          {heatWords(props.heat, day.status === 'open' ? day.forecast : undefined, props.pace)}
        </h3>
      )}
      <div className="entry-line">
        {runs ? <Handle {...props} /> : <span className="handle number">{place}</span>}
        {runs ? (
          <button
            type="button"
            className="entry-name"
            aria-expanded={open}
            aria-controls={id}
            onClick={props.onToggle}
            title={t.order.details(person.name)}
          >
            <Name {...props} />
          </button>
        ) : (
          <span className="entry-name">
            <Name {...props} />
          </span>
        )}
        <span className="entry-state">
          <EntryMark state={entry.state}>{stateText(props, letter)}</EntryMark>
          {entry.fixedRig !== undefined && <span className="small soft">{t.order.only(letter(entry.fixedRig))}</span>}
        </span>
        <span className="entry-next">
          {goesOn(entry) && entry.after === undefined && <span>{entry.next}</span>}
          {total > 0 && <span className="small soft">{t.order.done(entry.efforts.length, total)}</span>}
          {entry.incomplete && <span className="small too-few">{t.order.tooFew}</span>}
        </span>
        <span className="entry-gates">
          {person.minor && !props.follows && <span className="tag">{t.order.minor}</span>}
          {gates.map((gate) => (
            <GateMark key={`${gate.kind}${gate.limb}${gate.id ?? ''}`} gate={gate} />
          ))}
          {entry.readiness === undefined && gates.length === 0 && !props.follows && (
            <span className="small soft">{t.order.unanswered}</span>
          )}
        </span>
        <span className="entry-efforts">
          {entry.efforts.map((one) => (
            <StateMark key={one.trial} state={one.state} />
          ))}
        </span>
        {runs && (
          <span className="entry-open" aria-hidden="true" data-open={open}>
            <Icon name="open" size={16} />
          </span>
        )}
      </div>
      <div id={id} hidden={!open}>
        {open && <EntryDetails {...props} />}
      </div>
    </li>
  );
}

/** Moves the entry by dragging or by the arrow keys. */
function Handle({ entry, place, of, onCancel, onKey, onDrag, onDrop }: EntryRowProps) {
  return (
    <button
      type="button"
      className="handle"
      aria-label={t.order.move(entry.person.name, place, of)}
      title={t.order.help}
      onKeyDown={(event) => {
        if (event.key === 'Escape') onCancel();
        else if (onKey(event.key)) event.preventDefault();
      }}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={(event) => {
        if (event.currentTarget.hasPointerCapture(event.pointerId)) onDrag(event.clientY);
      }}
      onPointerUp={onDrop}
      onPointerCancel={onCancel}
    >
      <svg viewBox="0 0 12 20" width="12" height="20" aria-hidden="true" focusable="false">
        <path d="M1 5h10M1 10h10M1 15h10" stroke="currentColor" strokeWidth="1.6" />
      </svg>
      <span className="number">{place}</span>
    </button>
  );
}

function Name({ entry: { person, walkIn, test }, day, follows }: EntryRowProps) {
  if (follows)
    return (
      <>
        <span className="unseen">{person.name} </span>
        <span>{testTitle(test)}</span>
      </>
    );
  return (
    <>
      <b>{person.name}</b> <span className="small soft">{person.code}</span>
      {walkIn && <span className="tag">{t.order.walkIn}</span>}
      {day.tests.length > 1 && day.battery !== 'by-test' && (
        <span className={day.battery === undefined ? 'small soft' : 'entry-test'}>{testTitle(test)}</span>
      )}
    </>
  );
}

const goesOn = ({ state }: DayEntry) => state !== 'left' && state !== 'done' && state !== 'blocked';

function stateText({ entry, day, now, receivedAt, pace }: EntryRowProps, letter: (rig: string) => string): string {
  if (entry.state === 'left' && entry.efforts.length === 0) return t.notHere;
  if (entry.state === 'on-rig' && entry.rig !== undefined) return t.onRig(letter(entry.rig));
  const first = entry.state === 'waiting' ? day.entries.find(({ id }) => id === entry.after) : undefined;
  if (first !== undefined) return t.battery.after(testTitle(first.test));
  if (entry.state !== 'resting' || !entry.rest) return t.states[entry.state];
  if (entry.rest.state === 'too-long') return t.rest.stale;
  const left = restLeft(entry.rest.left, receivedAt, now, pace);
  return left > 0 ? t.rest.left(countdownText(left)) : t.rest.ready;
}
