import { rigWords } from '../../../words/rig.ts';
import { ChecksumPart } from './checksum-part.tsx';
import { FieldsPart } from './fields-part.tsx';
import { ChoiceField, TextField } from './parts.tsx';
import { emptyField, emptyForm, type LayoutForm } from './source-form.ts';

interface LayoutProps {
  readonly layout: LayoutForm;
  /** Names of the channels, to choose from. */
  readonly channels: readonly string[];
  onChange(layout: LayoutForm): void;
}

type Start = keyof typeof rigWords.source.starts;

/** A usual layout for the channels there are, to begin with. */
function begin(start: Start, channels: readonly string[]): LayoutForm {
  const base = emptyForm.layout;
  const fields = channels.map((channel) => ({ ...emptyField, channel }));
  const counter = { ...emptyField, role: 'counter', wrapsAt: '65535', type: 'u16' };
  if (start === 'lines') return { ...base, fields };
  if (start === 'counted') return { ...base, fields: [counter, ...fields] };
  return { ...base, kind: 'frames', head: [counter], sample: fields, checksum: { ...base.checksum, kind: 'sum8' } };
}

/** How bytes become samples: text lines or binary frames. */
export function LayoutPart({ layout, channels, onChange }: LayoutProps) {
  const t = rigWords.layout;
  const set = (part: Partial<LayoutForm>) => onChange({ ...layout, ...part });
  return (
    <section className="panel" aria-labelledby="layout">
      <h2 id="layout">{t.title}</h2>
      <div className="acts">
        <span className="small soft">{rigWords.source.start}:</span>
        {(Object.keys(rigWords.source.starts) as Start[]).map((start) => (
          <button key={start} type="button" className="button" onClick={() => onChange(begin(start, channels))}>
            {rigWords.source.starts[start]}
          </button>
        ))}
      </div>
      <div className="field-grid">
        <ChoiceField
          label={t.kind}
          path="layout.kind"
          value={layout.kind}
          options={t.kinds}
          onChange={(kind) => set({ kind: kind as LayoutForm['kind'] })}
        />
        {layout.kind === 'lines' ? (
          <>
            <ChoiceField
              label={t.delimiter}
              path="layout.delimiter"
              value={layout.delimiter}
              options={t.delimiters}
              onChange={(delimiter) => set({ delimiter })}
            />
            <ChoiceField
              label={t.decimal}
              path="layout.decimal"
              value={layout.decimal === '.' ? '' : layout.decimal}
              options={{ '': t.decimals[''], ',': t.decimals[','] }}
              onChange={(decimal) => set({ decimal })}
            />
            <TextField
              label={t.comment}
              path="layout.comment"
              value={layout.comment}
              onChange={(comment) => set({ comment })}
            />
          </>
        ) : (
          <>
            <TextField label={t.sync} path="layout.sync" value={layout.sync} onChange={(sync) => set({ sync })} />
            <ChoiceField
              label={t.endian}
              path="layout.endian"
              value={layout.endian}
              options={t.endians}
              onChange={(endian) => set({ endian })}
            />
            <TextField
              label={t.samples}
              path="layout.samples"
              number
              value={layout.samples}
              onChange={(samples) => set({ samples })}
            />
          </>
        )}
      </div>
      {layout.kind === 'lines' ? (
        <FieldsPart
          title={t.fields}
          path="layout.fields"
          fields={layout.fields}
          channels={channels}
          onChange={(fields) => set({ fields })}
        />
      ) : (
        <>
          <FieldsPart
            title={t.head}
            path="layout.head"
            typed
            fields={layout.head}
            channels={channels}
            onChange={(head) => set({ head })}
          />
          <FieldsPart
            title={t.sample}
            path="layout.sample"
            typed
            fields={layout.sample}
            channels={channels}
            onChange={(sample) => set({ sample })}
          />
          <ChecksumPart checksum={layout.checksum} onChange={(checksum) => set({ checksum })} />
        </>
      )}
    </section>
  );
}
