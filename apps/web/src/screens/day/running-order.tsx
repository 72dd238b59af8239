import { type Day, type LabId, liveRoutes } from '@sthene/contract';
import { useRef, useState } from 'react';
import { useMay } from '../../data/access.ts';
import type { useDayAct } from '../../data/days.ts';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { followsOn, movedWithPerson, placeBeside } from './battery.ts';
import { EntryRow } from './entry-row.tsx';
import { droppedAt, gapAt, movedBy, movedTo } from './order.ts';
import { usePace } from './pace.ts';
import { peopleOf } from './standing.ts';
import { useNow } from './use-now.ts';

interface RunningOrderProps {
  readonly lab: LabId;
  readonly day: Day;
  readonly act: ReturnType<typeof useDayAct>;
  readonly receivedAt: number;
}

/** From so many on a field finds names. */
const many = 12;

const fits = ({ person }: Day['entries'][number], find: string) =>
  `${person.name} ${person.code}`.toLowerCase().includes(find.trim().toLowerCase());

/** Everybody in order. One is moved by dragging its handle, by the arrow keys on it, or by the buttons of its details. */
export function RunningOrder({ lab, day, act, receivedAt }: RunningOrderProps) {
  const t = dayWords.order;
  const pace = usePace(lab, day);
  const runs = useMay()(liveRoutes.changeEntry);
  const [find, setFind] = useState('');
  const by = useSigned();
  const say = useSay();
  const list = useRef<HTMLOListElement>(null);
  const [shown, setShown] = useState<string>();
  const [drag, setDrag] = useState<{ id: string; gap: number }>();
  const now = useNow(day.entries.some(({ rest }) => rest !== undefined));
  // What was just ordered stands at once; the station's answer replaces it.
  const asked = act.isPending && act.variables.kind === 'order' ? act.variables.entries : undefined;
  const sorted = [...day.entries].sort((a, b) => a.position - b.position);
  const entries = asked ? asked.flatMap((id) => sorted.filter((one) => one.id === id)) : sorted;
  const ids = entries.map(({ id }) => id);

  const order = (next: readonly string[], id: string) => {
    if (next.every((one, i) => one === ids[i])) return;
    if (!by) return say(dayWords.sign.needed);
    act.mutate({ kind: 'order', entries: [...next], by });
    const name = entries.find((one) => one.id === id)?.person.name ?? '';
    say(t.moved(name, next.indexOf(id) + 1, next.length));
  };
  const gapUnder = (y: number) =>
    gapAt(
      [...(list.current?.children ?? [])].map((row) => {
        const { top, height } = (row.querySelector('.entry-line') ?? row).getBoundingClientRect();
        return top + height / 2;
      }),
      y,
    );
  const together = day.battery === 'by-person';
  const beside = (id: string, by: 1 | -1) =>
    together ? movedWithPerson(entries, id, placeBeside(entries, id, by)) : movedBy(ids, id, by);
  const to = (id: string, place: number) => (together ? movedWithPerson(entries, id, place) : movedTo(ids, id, place));
  const dropped = (id: string, gap: number) => {
    const plain = droppedAt(ids, id, gap);
    return together && plain !== ids ? movedWithPerson(entries, id, plain.indexOf(id)) : plain;
  };
  const key = (id: string, pressed: string): boolean => {
    const next = {
      ArrowUp: () => beside(id, -1),
      ArrowDown: () => beside(id, 1),
      Home: () => to(id, 0),
      End: () => to(id, ids.length - 1),
    }[pressed];
    if (!next) return false;
    order(next(), id);
    return true;
  };
  return (
    <section className="running-order" aria-labelledby="order">
      <div className="page-head">
        <h2 id="order">{t.title}</h2>
        {entries.length > 1 && runs && (
          <p className="small soft">{day.battery ? dayWords.battery.order[day.battery] : t.help}</p>
        )}
      </div>
      {entries.length > many && (
        <label className="field order-find">
          <span className="label">{t.find(peopleOf(entries))}</span>
          <input type="search" value={find} onChange={(event) => setFind(event.target.value)} />
        </label>
      )}
      {entries.length === 0 && <p className="panel soft">{t.empty}</p>}
      <ol ref={list} className="entries" data-dragging={drag !== undefined}>
        {entries.map((entry, i) => (
          <EntryRow
            hidden={!fits(entry, find)}
            heat={entry.heat === entries[i - 1]?.heat ? undefined : entry.heat}
            test={day.battery === 'by-test' && entry.test !== entries[i - 1]?.test ? entry.test : undefined}
            follows={followsOn(entries, i, day.battery)}
            key={entry.id}
            lab={lab}
            day={day}
            entry={entry}
            act={act}
            place={i + 1}
            of={entries.length}
            now={now}
            receivedAt={receivedAt}
            pace={pace}
            runs={runs}
            open={shown === entry.id}
            drop={drag?.gap === i ? 'before' : drag?.gap === i + 1 && i === entries.length - 1 ? 'after' : undefined}
            dragged={drag?.id === entry.id}
            onToggle={() => setShown(shown === entry.id ? undefined : entry.id)}
            onKey={(pressed) => key(entry.id, pressed)}
            onMove={(delta) => order(beside(entry.id, delta), entry.id)}
            onDrag={(y) => setDrag({ id: entry.id, gap: gapUnder(y) })}
            onDrop={() => {
              if (drag) order(dropped(drag.id, drag.gap), drag.id);
              setDrag(undefined);
            }}
            onCancel={() => setDrag(undefined)}
          />
        ))}
      </ol>
    </section>
  );
}
