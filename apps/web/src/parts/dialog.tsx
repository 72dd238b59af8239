import { type ReactNode, useEffect, useId, useRef } from 'react';
import './dialog.css';

/** A native modal dialog. Escape and the cancel button close it; focus goes back to where it came from. */
export function Dialog({ title, onClose, children }: { title: string; onClose: () => void; children: ReactNode }) {
  const host = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const dialog = host.current;
    if (dialog && !dialog.open) dialog.showModal();
  }, []);
  return (
    <dialog ref={host} className="dialog" aria-labelledby={id} onClose={onClose} onCancel={onClose}>
      <h2 id={id}>{title}</h2>
      {children}
    </dialog>
  );
}
