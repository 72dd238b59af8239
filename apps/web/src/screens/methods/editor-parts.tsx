import { checkRegistry, limitField, type Method, type MethodField, methodFields, onsetRegistry } from '@sthene/core';
import { useId } from 'react';
import { unitText } from '../../number/format.ts';
import { methodWords } from '../../words/methods.ts';
import { Choice } from '../athletes/choice.tsx';
import { formOf, type MethodForm, optional } from './method-form.ts';

const t = methodWords.edit;

interface PartProps {
  readonly form: MethodForm;
  readonly set: (part: Partial<MethodForm>) => void;
  /** What is wrong, by place. */
  readonly faults: ReadonlyMap<string, string>;
  readonly before: Method;
}

export function NamePart({ form, set, faults }: PartProps) {
  return (
    <section className="panel">
      <TextLine
        label={t.name}
        help={t.nameHelp}
        value={form.name}
        fault={faults.get('name')}
        onChange={(name) => set({ name })}
      />
      <TextLine
        label={t.summary}
        value={form.summary}
        fault={faults.get('summary')}
        onChange={(summary) => set({ summary })}
      />
    </section>
  );
}

export function OnsetPart({ form, set }: PartProps) {
  const rule = onsetRegistry.get(form.rule);
  return (
    <section className="panel" aria-labelledby="edit-onset">
      <h2 id="edit-onset">{t.onset}</h2>
      <Choice label={t.rule} value={form.rule} onChange={(value) => set({ rule: value })}>
        {onsetRegistry.all
          .filter(({ automatic }) => automatic)
          .map(({ id, title }) => (
            <option key={id} value={id}>
              {title}
            </option>
          ))}
      </Choice>
      <p className="small soft">
        {rule?.definition} {rule?.source}
      </p>
    </section>
  );
}

export function NumbersPart(props: PartProps) {
  return (
    <section className="panel" aria-labelledby="edit-signal">
      <h2 id="edit-signal">{t.signal}</h2>
      <Numbers {...props} groups={['filter', 'window']} />
      <p className="small soft">{t.weighing}</p>
    </section>
  );
}

export function SetPart(props: PartProps) {
  const { form, set } = props;
  return (
    <section className="panel" aria-labelledby="edit-set">
      <h2 id="edit-set">{t.set}</h2>
      <Choice
        label={t.sessionValue}
        value={form.sessionValue}
        onChange={(value) => set({ sessionValue: value as MethodForm['sessionValue'] })}
      >
        {(['mean-all', 'mean-best-two', 'best'] as const).map((one) => (
          <option key={one} value={one}>
            {t.sessionValues[one]}
          </option>
        ))}
      </Choice>
      <Numbers {...props} groups={['set', 'allometricExponent']} />
    </section>
  );
}

function Numbers({ form, set, faults, before, groups }: PartProps & { groups: readonly string[] }) {
  const was = formOf(before);
  return (
    <div className="method-numbers">
      {methodFields
        .filter(({ at }) => groups.includes(at.split('.')[0] as string))
        .map((field) => (
          <NumberLine
            key={field.at}
            field={field}
            value={form.numbers[field.at] ?? ''}
            was={was.numbers[field.at] ?? ''}
            empty={optional.has(field.at)}
            fault={faults.get(field.at) ?? (field.at === 'filter.cutoff' ? faults.get('filter') : undefined)}
            onChange={(value) => set({ numbers: { ...form.numbers, [field.at]: value } })}
          />
        ))}
    </div>
  );
}

export function ChecksPart({ form, set, faults, before }: PartProps) {
  const was = formOf(before);
  const put = (id: string, part: Partial<MethodForm['checks'][string]>) =>
    set({ checks: { ...form.checks, [id]: { ...(form.checks[id] as MethodForm['checks'][string]), ...part } } });
  return (
    <section className="panel" aria-labelledby="edit-checks">
      <h2 id="edit-checks">{t.checks}</h2>
      <p className="small soft">{t.checksHelp}</p>
      <ul className="method-checks">
        {checkRegistry.all.map(({ id, title, why }) => {
          const one = form.checks[id];
          if (one === undefined) return null;
          const limits = Object.entries(one.limits);
          const touched = limits.some(([limit, value]) => value !== was.checks[id]?.limits[limit]);
          const wrong = limits.some(([limit]) => faults.has(`checks.${id}.limits.${limit}`));
          return (
            <li key={id}>
              <label className="check-line">
                <input type="checkbox" checked={one.use} onChange={(event) => put(id, { use: event.target.checked })} />
                {title}
              </label>
              <details open={touched || wrong || undefined}>
                <summary>{t.more}</summary>
                <p className="small soft">{why}</p>
                <div className="method-numbers">
                  {limits.map(([limit, value]) => (
                    <NumberLine
                      key={limit}
                      field={limitField(id, limit)}
                      value={value}
                      was={was.checks[id]?.limits[limit] ?? ''}
                      empty={false}
                      fault={faults.get(`checks.${id}.limits.${limit}`)}
                      onChange={(text) => put(id, { limits: { ...one.limits, [limit]: text } })}
                    />
                  ))}
                </div>
              </details>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function TextLine({
  label,
  help,
  value,
  fault,
  onChange,
}: {
  label: string;
  help?: string;
  value: string;
  fault: string | undefined;
  onChange: (value: string) => void;
}) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        value={value}
        maxLength={200}
        aria-invalid={fault !== undefined}
        aria-describedby={`${id}-help`}
        onChange={(event) => onChange(event.target.value)}
      />
      <span id={`${id}-help`} className={fault === undefined ? 'small soft' : 'small field-error'}>
        {fault ?? help}
      </span>
    </div>
  );
}

function NumberLine({
  field,
  value,
  was,
  empty,
  fault,
  onChange,
}: {
  field: MethodField;
  value: string;
  was: string;
  empty: boolean;
  fault: string | undefined;
  onChange: (value: string) => void;
}) {
  const id = useId();
  const unit = unitText(field.unit);
  const hints = [
    ...(value === was ? [] : [t.asBefore(was === '' ? t.filterOff : `${was} ${unit}`.trim())]),
    ...(empty && value.trim() === '' ? [t.empty] : []),
  ];
  return (
    <div className="field" data-changed={value !== was || undefined}>
      <label htmlFor={id}>{field.title}</label>
      <span className="method-number">
        <input
          id={id}
          value={value}
          inputMode="decimal"
          aria-invalid={fault !== undefined}
          aria-describedby={`${id}-help`}
          onChange={(event) => onChange(event.target.value)}
        />
        <span className="soft">{unit}</span>
      </span>
      <span id={`${id}-help`} className={fault === undefined ? 'small soft' : 'small field-error'}>
        {[fault ?? field.help, ...hints].filter((one) => one !== '').join(' ')}
      </span>
    </div>
  );
}
