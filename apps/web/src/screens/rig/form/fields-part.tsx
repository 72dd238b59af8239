import { Icon } from '../../../parts/icon.tsx';
import { rigWords } from '../../../words/rig.ts';
import { ChoiceField, TextField } from './parts.tsx';
import { emptyField, type FieldForm } from './source-form.ts';

interface FieldsProps {
  readonly title: string;
  readonly path: string;
  readonly fields: readonly FieldForm[];
  readonly channels: readonly string[];
  /** Binary fields have a number type. */
  readonly typed?: boolean;
  onChange(fields: readonly FieldForm[]): void;
}

const types = ['u8', 'i8', 'u16', 'i16', 'u24', 'i24', 'u32', 'i32', 'f32', 'f64'];
const typeOptions = Object.fromEntries(types.map((one) => [one, one]));
const units = { s: 's', ms: 'ms', us: '\u00b5s' };

/** The fields of a line or frame, in their order. */
export function FieldsPart({ title, path, fields, channels, typed = false, onChange }: FieldsProps) {
  const t = rigWords.layout;
  const names = Object.fromEntries(channels.map((one) => [one, one]));
  return (
    <fieldset>
      <legend>{title}</legend>
      <ol className="field-rows">
        {fields.map((field, i) => {
          const set = (part: Partial<FieldForm>) =>
            onChange(fields.map((one, at) => (at === i ? { ...one, ...part } : one)));
          const at = `${path}.${i}`;
          return (
            <li key={i}>
              <span className="number soft">{i + 1}</span>
              <ChoiceField
                label={t.role}
                path={`${at}.role`}
                value={field.role}
                options={t.roles}
                onChange={(role) => set({ role })}
              />
              {typed && (
                <ChoiceField
                  label={t.type}
                  path={`${at}.type`}
                  value={field.type}
                  options={typeOptions}
                  onChange={(type) => set({ type })}
                />
              )}
              {field.role === 'channel' && (
                <ChoiceField
                  label={t.channel}
                  path={`${at}.channel`}
                  value={field.channel}
                  options={names}
                  onChange={(channel) => set({ channel })}
                />
              )}
              {field.role === 'time' && (
                <ChoiceField
                  label={t.unit}
                  path={`${at}.unit`}
                  value={field.unit}
                  options={units}
                  onChange={(unit) => set({ unit })}
                />
              )}
              {(field.role === 'counter' || field.role === 'time') && (
                <TextField
                  label={t.wrapsAt}
                  path={`${at}.wrapsAt`}
                  number
                  value={field.wrapsAt}
                  onChange={(wrapsAt) => set({ wrapsAt })}
                />
              )}
              {field.role === 'counter' && (
                <TextField
                  label={t.step}
                  path={`${at}.step`}
                  number
                  value={field.step}
                  onChange={(step) => set({ step })}
                />
              )}
              <button
                type="button"
                className="button quiet square"
                aria-label={t.remove(i + 1)}
                onClick={() => onChange(fields.filter((_, at) => at !== i))}
              >
                <Icon name="close" size={16} />
              </button>
            </li>
          );
        })}
      </ol>
      <button
        type="button"
        className="button"
        onClick={() => onChange([...fields, { ...emptyField, role: channels.length > 0 ? 'channel' : 'ignore' }])}
      >
        <Icon name="plus" size={16} /> {t.add}
      </button>
    </fieldset>
  );
}
