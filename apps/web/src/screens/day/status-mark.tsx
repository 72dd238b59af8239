import type { DayRow, EntryState } from '@sthene/contract';
import type { ReactNode } from 'react';

// A person as a head over a ground line, and what they do: drawings of our own, one for each state.
const paths: Record<EntryState, string> = {
  waiting: 'M3 21h18M12 7a5 5 0 1 0 .01 0z',
  'warming-up': 'M3 21h18M6 16v-3M12 16v-7M18 16V4',
  'on-rig': 'M3 21h18M12 17V3M7 8l5-5 5 5',
  resting: 'M3 21h18M9 5v11M15 5v11',
  done: 'M3 21h18M5.5 11.5l4.5 4.5L20 4',
  left: 'M3 21h18M4 11h13M12 6l5 5-5 5',
  blocked: 'M3 21h18M12 3a7 7 0 1 0 .01 0zM7.5 14.5l9-9',
};

/** How someone of the day stands: shape and word, colour only on top of them. */
export function EntryMark({ state, children }: { state: EntryState; children: ReactNode }) {
  return (
    <span className="entry-mark" data-state={state}>
      <Drawing path={paths[state]} />
      {children}
    </span>
  );
}

const dayPaths: Record<DayRow['status'], string> = {
  planned: 'M4 6h16v14H4zM4 10h16M8 3v4M16 3v4',
  open: 'M12 4a8 8 0 1 0 .01 0zM10 8.500l6 3.500-6 3.500z',
  closed: 'M4 6h16v14H4zM4 10h16M8.500 15l2.500 2.500 4.500-5',
};

export function DayMark({ status, children }: { status: DayRow['status']; children: ReactNode }) {
  return (
    <span className="entry-mark" data-state={status}>
      <Drawing path={dayPaths[status]} />
      {children}
    </span>
  );
}

function Drawing({ path }: { path: string }) {
  return (
    <svg
      viewBox="0 0 24 24"
      width="18"
      height="18"
      fill="none"
      stroke="currentColor"
      strokeWidth="2"
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
      focusable="false"
    >
      <path d={path} />
    </svg>
  );
}
