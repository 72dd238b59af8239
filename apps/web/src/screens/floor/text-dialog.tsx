import { useId, useState } from 'react';
import { Dialog } from '../../parts/dialog.tsx';

interface TextDialogProps {
  readonly title: string;
  readonly text?: string;
  readonly label: string;
  readonly yes: string;
  readonly no: string;
  /** Words shown when the field is left empty; absent: it may be. */
  readonly needed?: string;
  readonly onYes: (text: string) => void;
  readonly onClose: () => void;
}

/** One question with one field: pain stop, decision, note. */
export function TextDialog({ title, text, label, yes, no, needed, onYes, onClose }: TextDialogProps) {
  const id = useId();
  const [value, setValue] = useState('');
  const [missing, setMissing] = useState(false);
  return (
    <Dialog title={title} onClose={onClose}>
      <form
        className="dialog-form"
        onSubmit={(event) => {
          event.preventDefault();
          if (needed !== undefined && value.trim() === '') setMissing(true);
          else onYes(value.trim());
        }}
      >
        {text !== undefined && <p>{text}</p>}
        <label htmlFor={id}>{label}</label>
        <textarea id={id} value={value} maxLength={500} onChange={(event) => setValue(event.target.value)} />
        {missing && (
          <p className="field-error" role="alert">
            {needed}
          </p>
        )}
        <div className="dialog-acts">
          <button type="submit" className="button main big">
            {yes}
          </button>
          <button type="button" className="button big" onClick={onClose}>
            {no}
          </button>
        </div>
      </form>
    </Dialog>
  );
}
