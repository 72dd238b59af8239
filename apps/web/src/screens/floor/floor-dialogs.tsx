import { useId, useState } from 'react';
import { Dialog } from '../../parts/dialog.tsx';
import { liveWords as words } from '../../words/live.ts';

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

/** The keys of the Floor. */
export function FloorKeys({ onClose }: { onClose: () => void }) {
  return (
    <Dialog title={words.keys.title} onClose={onClose}>
      <table>
        <tbody>
          {words.keys.rows.map(([key, text]) => (
            <tr key={key}>
              <th scope="row">
                <kbd>{key}</kbd>
              </th>
              <td>{text}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <div className="dialog-acts">
        <button type="button" className="button" onClick={onClose}>
          {words.keys.close}
        </button>
      </div>
    </Dialog>
  );
}
