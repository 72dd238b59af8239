import { useId } from 'react';
import { rigWords } from '../../../words/rig.ts';
import { FaultsUnder } from './parts.tsx';
import type { MadeForm, SurfaceForm } from './source-form.ts';

interface SurfaceProps {
  readonly channel: MadeForm;
  /** All that stand in one list with it. */
  readonly of: readonly MadeForm[];
  readonly path: string;
  onChange(part: { readonly surface: SurfaceForm }): void;
}

const needed = ['x', 'y', 'z', 'mx', 'my', 'mz'] as const;

/** Where the surface of a plate lies, with its vertical channel, once the plate gives three forces and three moments. */
export function SurfaceFields({ channel, of, path, onChange }: SurfaceProps) {
  const t = rigWords.channel.surface;
  const id = useId();
  const { surface = { origin: '', corners: '' } } = channel;
  const axes = of.filter(({ plate }) => plate === channel.plate).map(({ axis }) => axis);
  const whole = channel.axis === 'z' && needed.every((axis) => axes.includes(axis));
  // What stands there already can always be seen and taken away.
  if (!whole && surface.origin === '' && surface.corners === '') return null;
  const at = `${path}.surface`;
  return (
    <fieldset className="surface-fields" aria-describedby={`${id}help ${id}faults`}>
      <legend>{t.title(channel.plate)}</legend>
      <div className="field">
        <label htmlFor={`${id}origin`}>{t.origin}</label>
        <input
          id={`${id}origin`}
          className="number"
          autoComplete="off"
          placeholder="0 0 -40"
          value={surface.origin}
          onChange={(event) => onChange({ surface: { ...surface, origin: event.target.value } })}
        />
      </div>
      <div className="field">
        <label htmlFor={`${id}corners`}>{t.corners}</label>
        <textarea
          id={`${id}corners`}
          className="number"
          spellCheck={false}
          rows={4}
          value={surface.corners}
          onChange={(event) => onChange({ surface: { ...surface, corners: event.target.value } })}
        />
      </div>
      <p id={`${id}help`} className="small soft">
        {t.help}
      </p>
      <FaultsUnder id={`${id}faults`} path={at} />
    </fieldset>
  );
}
