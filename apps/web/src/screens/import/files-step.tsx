import { type ReactNode, useEffect, useRef } from 'react';
import { Link } from 'react-router';
import { importWords as t } from '../../words/importing.ts';
import { receivedWords } from '../../words/received.ts';
import { DropZone } from './drop-zone.tsx';
import { FileRow } from './file-row.tsx';
import { groupsOf, standingOf, usable, working } from './state.ts';
import { StepHeading } from './steps.tsx';
import type { Import } from './use-import.ts';

/** Step 1: choose files and see what is recognised. Goes on by itself when there is nothing to decide here. */
export function FilesStep({ imported, children }: { imported: Import; children: ReactNode }) {
  const { state, act, add } = imported;
  const { items, drafts } = state;
  const busy = working(items);
  const good = usable(items);
  const groups = groupsOf(items);
  const going = good.filter((item) => standingOf(item) !== 'known' || item.onDuplicate === 'keep-both');
  const ready = going.length > 0 && groups.every(({ group }) => drafts[group] !== undefined);
  const next = () => {
    const certain = groups.every(
      ({ group, items: members }) => drafts[group]?.certain && members.every((one) => standingOf(one) !== 'question'),
    );
    act({ do: 'step', step: certain ? 3 : 2 });
  };
  const go = useRef(next);
  go.current = next;

  // Only right after files were added; who comes back to this step stays here.
  const fresh = useRef(0);
  const settled = items.length > 0 && busy.length === 0 && ready;
  const clean = items.every(
    (item) => ['ready', 'question'].includes(standingOf(item)) && item.look?.results === undefined,
  );
  const others = items.length > 0 && items.every((item) => standingOf(item) === 'results');
  useEffect(() => {
    if (!settled || fresh.current === 0) return;
    fresh.current = 0;
    if (clean) go.current();
  }, [settled, clean]);
  const addFresh = (files: readonly File[]) => {
    fresh.current = files.length;
    add(files);
  };
  // Files that were put here from outside (an unfinished import) count as fresh too.
  const before = useRef(items.length);
  useEffect(() => {
    if (items.length > before.current) fresh.current = items.length - before.current;
    before.current = items.length;
  }, [items.length]);

  return (
    <div className="step">
      <StepHeading step={1}>{t.title}</StepHeading>
      {children}
      <DropZone small={items.length > 0} onFiles={addFresh} />
      {items.length > 0 && (
        <ul className="file-list" aria-label={t.file.list}>
          {items.map((item) => (
            <FileRow key={item.key} item={item} imported={imported} />
          ))}
        </ul>
      )}
      {items.length === 0 && (
        <p className="small">
          <Link to={`/${imported.lab}/import/received`}>{receivedWords.list.title}</Link>
        </p>
      )}
      {items.length > 0 && !others && (
        <div className="step-end">
          <p className="soft" role="status">
            {busy.length > 0
              ? t.working(busy.length)
              : good.length === 0
                ? t.noneUsable
                : going.length === 0
                  ? t.allKnown
                  : ''}
          </p>
          <button type="button" className="button main" disabled={!ready || busy.length > 0} onClick={next}>
            {going.length > 0 ? t.usable(going.length, items.length) : t.next}
          </button>
        </div>
      )}
    </div>
  );
}
