import { type ReactNode, useEffect, useId, useRef, useState } from 'react';

export interface MenuProps {
  readonly label: string;
  readonly face: ReactNode;
  readonly align?: 'start' | 'end';
  readonly className?: string;
  readonly children: (close: () => void) => ReactNode;
}

/** Least distance of a panel from the edge of the window, pixels. */
const edge = 8;

/** A button near the edge of a narrow window must not open a panel beyond it. */
function keepInside(panel: HTMLElement | null | undefined): void {
  if (!panel) return;
  panel.style.translate = '';
  const { left, right } = panel.getBoundingClientRect();
  const shift = left < edge ? edge - left : Math.min(0, document.documentElement.clientWidth - edge - right);
  if (shift !== 0) panel.style.translate = `${shift}px`;
}

/** A button that opens a small panel below it. Escape and a click outside close it; focus returns to the button. */
export function Menu({ label, face, align = 'start', className, children }: MenuProps) {
  const [open, setOpen] = useState(false);
  const host = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  const panel = useId();
  const close = () => {
    setOpen(false);
    button.current?.focus();
  };
  useEffect(() => {
    if (!open) return;
    keepInside(host.current?.querySelector<HTMLElement>('.menu-panel'));
    host.current?.querySelector<HTMLElement>('.menu-panel :is(input, button, a)')?.focus();
    const outside = (event: PointerEvent) => {
      if (!host.current?.contains(event.target as Node)) setOpen(false);
    };
    // Also where the focus has gone nowhere, as after a touch.
    const byKey = (event: KeyboardEvent) => {
      if (event.key === 'Escape') setOpen(false);
    };
    addEventListener('pointerdown', outside);
    addEventListener('keydown', byKey);
    return () => {
      removeEventListener('pointerdown', outside);
      removeEventListener('keydown', byKey);
    };
  }, [open]);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape is caught from the button and fields inside
    <div
      className="menu"
      ref={host}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || !open) return;
        event.stopPropagation();
        close();
      }}
      onBlur={(event) => {
        const next = event.relatedTarget;
        // A click on words inside the panel focuses what surrounds the panel; that is no leaving.
        if (next && !host.current?.contains(next) && !next.contains(host.current)) setOpen(false);
      }}
    >
      <button
        type="button"
        ref={button}
        className={className ?? 'button quiet'}
        aria-label={label}
        title={label}
        aria-expanded={open}
        aria-controls={panel}
        onClick={() => setOpen(!open)}
      >
        {face}
      </button>
      <div id={panel} className="menu-panel" data-align={align} hidden={!open}>
        {open && children(close)}
      </div>
    </div>
  );
}
