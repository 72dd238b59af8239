import type { PairedDevice } from '@sthene/contract';
import { useId, useState } from 'react';
import { Dialog } from '../../parts/dialog.tsx';
import { deviceWords } from '../../words/devices.ts';

const t = deviceWords.list;

export function RenameDialog(props: { device: PairedDevice; onClose: () => void; onSave: (name: string) => void }) {
  const { device, onClose, onSave } = props;
  const [name, setName] = useState(device.name);
  const id = useId();
  return (
    <Dialog title={t.renameOf(device.name)} onClose={onClose}>
      <form
        className="dialog-form"
        onSubmit={(event) => {
          event.preventDefault();
          onSave(name.trim());
          onClose();
        }}
      >
        <label htmlFor={id}>{deviceWords.pair.name}</label>
        <input id={id} value={name} maxLength={60} onChange={(event) => setName(event.target.value)} />
        <div className="dialog-acts">
          <button type="submit" className="button main" disabled={name.trim() === ''}>
            {t.save}
          </button>
          <button type="button" className="button" onClick={onClose}>
            {t.cancel}
          </button>
        </div>
      </form>
    </Dialog>
  );
}

export function RevokeDialog(props: { device: PairedDevice; onClose: () => void; onRevoke: () => void }) {
  const { device, onClose, onRevoke } = props;
  return (
    <Dialog title={t.revokeTitle(device.name)} onClose={onClose}>
      <p>{t.revokeText}</p>
      <div className="dialog-acts">
        <button
          type="button"
          className="button main"
          onClick={() => {
            onRevoke();
            onClose();
          }}
        >
          {t.revoke}
        </button>
        <button type="button" className="button" onClick={onClose}>
          {t.keepIt}
        </button>
      </div>
    </Dialog>
  );
}
