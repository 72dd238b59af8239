import { type ReactNode, useEffect, useId, useRef } from 'react';
import './dialog.css';

interface DialogProps {
  readonly title: string;
  /** For many fields beside each other. */
  readonly wide?: boolean;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** A native modal dialog. Escape and the cancel button close it; focus goes back to where it came from. */
export function Dialog({ title, wide = false, onClose, children }: DialogProps) {
  const host = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const dialog = host.current;
    if (dialog && !dialog.open) dialog.showModal();
  }, []);
  return (
    <dialog
      ref={host}
      className={wide ? 'dialog dialog-wide' : 'dialog'}
      aria-labelledby={id}
      onClose={onClose}
      onCancel={onClose}
    >
      <h2 id={id}>{title}</h2>
      {children}
    </dialog>
  );
}
