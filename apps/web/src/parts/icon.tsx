const paths = {
  // Verdicts: one ground line, and what stands on it: a tick, an eye-level line with a point, a return.
  counts: 'M3 21h18M5.5 12.5l4.5 4.5L20 5',
  'look-again': 'M3 21h18M12 3v9.5M12 16v1.4',
  repeat: 'M3 21h18M18.5 14a6.5 6.5 0 1 1-1.2-7.2M18.5 3v4.5H14',
  excluded: 'M3 21h18M6 4l12 12M18 4L6 16',
  pass: 'M4 12.5l5 5L20 6',
  warn: 'M12 4v11M12 18.6v1.6',
  fail: 'M5 5l14 14M19 5L5 19',
  'not-judged': 'M6 12h12',
  pen: 'M4 20l1.2-4.8L16 4.4l3.6 3.6L8.8 18.8zM13.5 7l3.6 3.6',
  device: 'M3 5h13v14H3zM8.500 16.200h2M19 9.500a5 5 0 0 1 0 5M21.500 7a9 9 0 0 1 0 10',
  theme: 'M12 3a9 9 0 1 0 0 18zM12 3a9 9 0 0 1 0 18',
  undo: 'M8 5L3.5 9.5 8 14M4 9.5h10a6 6 0 0 1 0 12h-3',
  redo: 'M16 5l4.500 4.500L16 14M20 9.500H10a6 6 0 0 0 0 12h3',
  plus: 'M12 5v14M5 12h14',
  minus: 'M5 12h14',
  left: 'M15 5l-7 7 7 7',
  right: 'M9 5l7 7-7 7',
  'event-back': 'M19 5l-8 7 8 7M6 5v14',
  'event-next': 'M5 5l8 7-8 7M18 5v14',
  keys: 'M3 7h18v11H3zM7 14.500h10M7 10.500h1M11 10.500h1M15 10.500h2',
  open: 'M7 10l5 5 5-5',
  layers: 'M12 4l9 5-9 5-9-5zM3 14l9 5 9-5',
  out: 'M12 15V4M7 9l5-5 5 5M4 15v5h16v-5',
  close: 'M6 6l12 12M18 6L6 18',
  onset: 'M8 3v18M3 19h5c5 0 4-12 13-12',
} as const;

export type IconName = keyof typeof paths;

/** A line drawing of our own, in the colour of the text beside it. Decorative: words always stand with it. */
export function Icon({ name, size = 20 }: { name: IconName; size?: number }) {
  return (
    <svg
      viewBox="0 0 24 24"
      width={size}
      height={size}
      fill="none"
      stroke="currentColor"
      strokeWidth="2"
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
      focusable="false"
    >
      <path d={paths[name]} />
    </svg>
  );
}
