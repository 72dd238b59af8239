import type { LabId } from '@sthene/contract';
import { useId } from 'react';
import { rigWords } from '../../../words/rig.ts';
import { ChoiceField, TextField, TickField } from './parts.tsx';
import { SerialPortField } from './serial-port-field.tsx';
import { type SourceForm, transportKinds } from './source-form.ts';
import { StreamPicker } from './stream-picker.tsx';
import { type TransportField, transportFields, withTransport } from './transport-fields.ts';

interface TransportProps {
  readonly lab: LabId;
  readonly form: SourceForm;
  setForm(form: SourceForm): void;
}

/** How the bytes come in. */
export function TransportPart({ lab, form, setForm }: TransportProps) {
  const id = useId();
  return (
    <section className="panel">
      <fieldset>
        <legend>{rigWords.source.how}</legend>
        <div className="kinds">
          {transportKinds.map((kind) => (
            <label key={kind} className="check-line">
              <input
                type="radio"
                name={`${id}kind`}
                checked={form.kind === kind}
                onChange={() => setForm({ ...form, kind })}
              />
              {rigWords.sources.kinds[kind]}
            </label>
          ))}
        </div>
      </fieldset>
      {form.kind === 'stream' && <StreamPicker lab={lab} form={form} setForm={setForm} />}
      <div className="field-grid">
        {transportFields[form.kind].map((field) => (
          <Field key={`${form.kind}${field.name}`} field={field} form={form} setForm={setForm} />
        ))}
      </div>
    </section>
  );
}

/** Letters from which a choice needs the room of two fields. */
const wide = 20;

function Field({ field, form, setForm }: Omit<TransportProps, 'lab'> & { readonly field: TransportField }) {
  const { name, label, number = false, options, list, tick, help } = field;
  const value = (form[form.kind] as Readonly<Record<string, string | boolean | undefined>>)[name] ?? '';
  const path = `transport.${name}`;
  const set = (next: string | boolean) => setForm(withTransport(form, { [name]: next }));
  if (form.kind === 'serial' && name === 'path') return <SerialPortField form={form} setForm={setForm} />;
  if (tick) return <TickField label={label} value={value === true} onChange={set} />;
  const text = { label, path, value: String(value), onChange: set };
  if (options)
    return (
      <div className={Object.values(options).some((one) => one.length > wide) ? 'field-wide' : undefined}>
        <ChoiceField {...text} options={options} />
      </div>
    );
  return (
    <div>
      <TextField {...text} number={number} {...(list ? { list } : {})} />
      {help && <p className="small soft">{help}</p>}
    </div>
  );
}
