import { useId } from 'react';
import { Icon } from '../../../parts/icon.tsx';
import { rigWords } from '../../../words/rig.ts';
import { IdentityFields } from './identity-fields.tsx';
import { asSignals, withMatrix, withOneMore } from './made-channels.ts';
import { MatrixTable } from './matrix-table.tsx';
import { FaultsUnder } from './parts.tsx';
import { type CalibrationForm, channelForm, type MadeForm, type SourceForm } from './source-form.ts';
import { SurfaceFields } from './surface-fields.tsx';

type Part = Pick<SourceForm, 'calibration' | 'channels'>;

interface CalibrationProps {
  readonly form: Part;
  onChange(part: Part): void;
}

/** Matrices that make forces of raw signals: which signals, the matrix as it is pasted, what it makes. */
export function CalibrationPart({ form, onChange }: CalibrationProps) {
  const t = rigWords.calibration;
  return (
    <section className="panel" aria-labelledby="source-calibration">
      <h2 id="source-calibration">{t.title}</h2>
      <p className="small soft">{t.help}</p>
      {form.calibration.map((_, at) => (
        <Matrix key={at} form={form} at={at} onChange={onChange} />
      ))}
      <div className="acts">
        <button type="button" className="button" onClick={() => onChange(withOneMore(form))}>
          <Icon name="plus" size={16} /> {t.add}
        </button>
      </div>
    </section>
  );
}

function Matrix({ form, at, onChange }: CalibrationProps & { readonly at: number }) {
  const t = rigWords.calibration;
  const id = useId();
  const calibration = form.calibration[at] as CalibrationForm;
  const path = `calibration.${at}`;
  const keep = (next: CalibrationForm, channels = form.channels) =>
    onChange({ channels, calibration: form.calibration.map((one, i) => (i === at ? next : one)) });
  return (
    <fieldset className="matrix">
      <legend>{t.one(at + 1)}</legend>
      <Signals
        form={form}
        signals={calibration.signals}
        path={`${path}.signals`}
        onChange={(signals) => keep(withMatrix(form, at, { signals }), asSignals(form.channels, signals))}
      />
      <div className="field">
        <label htmlFor={`${id}matrix`}>{t.matrix}</label>
        <textarea
          id={`${id}matrix`}
          className="number"
          spellCheck={false}
          rows={Math.max(3, calibration.channels.length)}
          value={calibration.matrix}
          aria-describedby={`${id}faults`}
          onChange={(event) => keep(withMatrix(form, at, { matrix: event.target.value }))}
        />
        <p className="small soft">{t.matrixHelp}</p>
        <FaultsUnder id={`${id}faults`} path={`${path}.matrix`} place={t.place} />
      </div>
      <MatrixTable calibration={calibration} />
      <Made
        channels={calibration.channels}
        path={`${path}.channels`}
        onChange={(channels) => keep({ ...calibration, channels })}
      />
      <div className="acts">
        <button
          type="button"
          className="button quiet"
          onClick={() => onChange({ ...form, calibration: form.calibration.filter((_, i) => i !== at) })}
        >
          {t.remove(at + 1)}
        </button>
      </div>
    </fieldset>
  );
}

interface SignalsProps {
  readonly form: Part;
  readonly signals: readonly string[];
  readonly path: string;
  onChange(signals: readonly string[]): void;
}

/** Channels to tick, in the order of the columns; a signal whose channel is gone can still be taken away. */
function Signals({ form, signals, path, onChange }: SignalsProps) {
  const t = rigWords.calibration;
  const id = useId();
  const names = [...new Set([...form.channels.map(({ name }) => name), ...signals])];
  return (
    <fieldset aria-describedby={`${id}help ${id}faults`}>
      <legend>{t.signals}</legend>
      <p id={`${id}help`} className="small soft">
        {t.signalsHelp}
      </p>
      <div className="kinds">
        {names.map((name) => {
          const column = signals.indexOf(name);
          return (
            <label key={name} className="check-line">
              <input
                type="checkbox"
                checked={column >= 0}
                onChange={({ target }) =>
                  onChange(target.checked ? [...signals, name] : signals.filter((one) => one !== name))
                }
              />
              {name} {column >= 0 && <span className="small soft">{t.column(column + 1)}</span>}
            </label>
          );
        })}
      </div>
      <FaultsUnder id={`${id}faults`} path={path} />
    </fieldset>
  );
}

interface MadeProps {
  readonly channels: readonly MadeForm[];
  readonly path: string;
  onChange(channels: readonly MadeForm[]): void;
}

/** What each row of the matrix makes. */
function Made({ channels, path, onChange }: MadeProps) {
  const t = rigWords.calibration;
  return (
    <fieldset>
      <legend>{t.made}</legend>
      <ol className="field-rows">
        {channels.map((channel, i) => {
          const set = (part: Partial<MadeForm>) =>
            onChange(channels.map((one, at) => (at === i ? { ...one, ...part } : one)));
          const at = `${path}.${i}`;
          return (
            <li key={i}>
              <span className="number soft">{i + 1}</span>
              <IdentityFields channel={channel} path={at} onChange={set} />
              <button
                type="button"
                className="button quiet square"
                aria-label={t.removeMade(i + 1)}
                onClick={() => onChange(channels.filter((_, at) => at !== i))}
              >
                <Icon name="close" size={16} />
              </button>
              <SurfaceFields channel={channel} of={channels} path={at} onChange={set} />
            </li>
          );
        })}
      </ol>
      <div className="acts">
        <button type="button" className="button" onClick={() => onChange([...channels, madeForm()])}>
          <Icon name="plus" size={16} /> {t.addMade}
        </button>
      </div>
    </fieldset>
  );
}

function madeForm(): MadeForm {
  const { name, plate, side, axis, unit } = channelForm('', 'none');
  return { name, plate, side, axis, unit };
}
