import { useId, useState } from 'react';
import { Dialog } from '../../parts/dialog.tsx';
import { liveWords as words } from '../../words/live.ts';

interface NoteDialogProps {
  readonly who: string;
  readonly before: string;
  readonly quick: readonly string[];
  readonly onKeep: (text: string) => void;
  readonly onClose: () => void;
}

/** A note on the athlete: what is often noted is one tap, anything else can be typed. */
export function NoteDialog({ who, before, quick, onKeep, onClose }: NoteDialogProps) {
  const { note: say } = words;
  const id = useId();
  const [picked, setPicked] = useState<readonly string[]>([]);
  const [text, setText] = useState('');
  const all = [...picked, ...(text.trim() === '' ? [] : [text.trim()])];
  return (
    <Dialog title={say.title(who)} onClose={onClose}>
      <form
        className="dialog-form"
        onSubmit={(event) => {
          event.preventDefault();
          onKeep(all.join(', '));
        }}
      >
        {before !== '' && <p className="note-before small">{before}</p>}
        <div className="note-quick">
          {quick.map((one) => (
            <button
              key={one}
              type="button"
              className="button big"
              aria-pressed={picked.includes(one)}
              onClick={() =>
                setPicked(picked.includes(one) ? picked.filter((other) => other !== one) : [...picked, one])
              }
            >
              {one}
            </button>
          ))}
        </div>
        <label htmlFor={id}>{say.label}</label>
        <textarea id={id} value={text} maxLength={500} onChange={(event) => setText(event.target.value)} />
        <div className="dialog-acts">
          <button type="submit" className="button main big" disabled={all.length === 0}>
            {say.yes}
          </button>
          <button type="button" className="button big" onClick={onClose}>
            {say.no}
          </button>
        </div>
      </form>
    </Dialog>
  );
}
