import { rigWords } from '../../../words/rig.ts';
import { ChoiceField, TextField, TickField } from './parts.tsx';
import type { ChecksumForm } from './source-form.ts';

interface ChecksumProps {
  readonly checksum: ChecksumForm;
  onChange(checksum: ChecksumForm): void;
}

/** How a damaged frame is told. */
export function ChecksumPart({ checksum, onChange }: ChecksumProps) {
  const t = rigWords.layout;
  const set = (part: Partial<ChecksumForm>) => onChange({ ...checksum, ...part });
  const at = 'layout.checksum';
  const { kind } = checksum;
  return (
    <div className="field-grid">
      <ChoiceField
        label={t.checksum}
        path={`${at}.kind`}
        value={kind}
        options={t.checksums}
        onChange={(value) => set({ kind: value })}
      />
      {kind === 'crc16' &&
        (['polynomial', 'initial', 'finalXor'] as const).map((one) => (
          <TextField
            key={one}
            label={t[one]}
            path={`${at}.${one}`}
            value={checksum[one]}
            onChange={(value) => set({ [one]: value })}
          />
        ))}
      {(kind === 'crc16' || kind === 'crc32') && (
        <ChoiceField
          label={t.endian}
          path={`${at}.endian`}
          value={checksum.endian}
          options={{ '': rigWords.transport.usual, ...t.endians }}
          onChange={(endian) => set({ endian })}
        />
      )}
      {kind === 'crc16' && (
        <TickField label={t.reflected} value={checksum.reflected} onChange={(reflected) => set({ reflected })} />
      )}
      {kind !== 'none' && (
        <TickField label={t.withSync} value={checksum.withSync} onChange={(withSync) => set({ withSync })} />
      )}
    </div>
  );
}
