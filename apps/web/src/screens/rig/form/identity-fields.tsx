import { rigWords } from '../../../words/rig.ts';
import { ChoiceField, TextField } from './parts.tsx';
import type { ChannelForm } from './source-form.ts';

export type IdentityForm = Pick<ChannelForm, 'name' | 'plate' | 'side' | 'axis' | 'unit'>;

interface IdentityProps {
  readonly channel: IdentityForm;
  readonly path: string;
  onChange(part: Partial<IdentityForm>): void;
}

/** What every channel says of itself, one that comes in and one that is made. */
export function IdentityFields({ channel, path, onChange }: IdentityProps) {
  const t = rigWords.channel;
  return (
    <>
      <TextField label={t.name} path={`${path}.name`} value={channel.name} onChange={(name) => onChange({ name })} />
      <TextField
        label={t.plate}
        path={`${path}.plate`}
        value={channel.plate}
        onChange={(plate) => onChange({ plate })}
      />
      <ChoiceField
        label={t.side}
        path={`${path}.side`}
        value={channel.side}
        options={t.sides}
        onChange={(side) => onChange({ side })}
      />
      <ChoiceField
        label={t.axis}
        path={`${path}.axis`}
        value={channel.axis}
        options={t.axes}
        onChange={(axis) => onChange({ axis })}
      />
      <TextField label={t.unit} path={`${path}.unit`} value={channel.unit} onChange={(unit) => onChange({ unit })} />
    </>
  );
}
