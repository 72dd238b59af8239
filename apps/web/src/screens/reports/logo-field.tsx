import type { ReportAppearance } from '@sthene/contract';
import { useId, useState } from 'react';
import { reportWords } from '../../words/reports.ts';

const t = reportWords.look;

/** What shall become of the logo. */
export type LogoDraft =
  | { readonly kind: 'kept' }
  | { readonly kind: 'none' }
  | { readonly kind: 'new'; readonly data: string; readonly mediaType: string };

const limit = 500_000;

interface LogoFieldProps {
  readonly kept: ReportAppearance['logo'];
  readonly draft: LogoDraft;
  readonly onChange: (draft: LogoDraft) => void;
}

/** Chooses a picture and shows it; the station looks at its bytes when it is saved. */
export function LogoField({ kept, draft, onChange }: LogoFieldProps) {
  const id = useId();
  const [fault, setFault] = useState('');
  const take = async (file: File | undefined) => {
    if (file === undefined) return;
    setFault('');
    if (file.size > limit) return setFault(t.large);
    try {
      onChange({ kind: 'new', data: base64(new Uint8Array(await file.arrayBuffer())), mediaType: file.type });
    } catch {
      setFault(t.notRead);
    }
  };
  const shown = draft.kind === 'new' ? draft : draft.kind === 'kept' ? kept : undefined;
  return (
    <div className="field">
      <label htmlFor={id}>{t.logo}</label>
      <div className="report-logo">
        {shown ? (
          <img alt={t.alt} src={`data:${shown.mediaType};base64,${shown.data}`} />
        ) : (
          <span className="small soft">{t.none}</span>
        )}
      </div>
      <input
        id={id}
        type="file"
        accept="image/png,image/jpeg"
        aria-describedby={`${id}-help`}
        onChange={(event) => void take(event.target.files?.[0])}
      />
      <p className="small soft" id={`${id}-help`}>
        {t.logoHelp}
      </p>
      {fault !== '' && (
        <p className="field-error" role="alert">
          {fault}
        </p>
      )}
      {shown && (
        <div className="acts">
          <button type="button" className="button" onClick={() => onChange({ kind: 'none' })}>
            {t.takeAway}
          </button>
        </div>
      )}
    </div>
  );
}

function base64(bytes: Uint8Array): string {
  const piece = 0x8000;
  let text = '';
  for (let at = 0; at < bytes.length; at += piece) text += String.fromCharCode(...bytes.subarray(at, at + piece));
  return btoa(text);
}
