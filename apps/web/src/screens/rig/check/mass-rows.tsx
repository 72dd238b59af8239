import type { MassView } from '@sthene/contract';
import { useId } from 'react';
import { Icon } from '../../../parts/icon.tsx';
import { rigCheckWords } from '../../../words/rig-check.ts';

const t = rigCheckWords.begin;
const knowns = Object.keys(t.knowns) as MassView['known'][];

/** The masses in the order they are put on; what is not yet filled in is 0. */
export function MassRows({
  masses,
  onChange,
}: {
  masses: readonly MassView[];
  onChange: (masses: MassView[]) => void;
}) {
  const id = useId();
  const change = (at: number, fields: Partial<MassView>) =>
    onChange(masses.map((one, i) => (i === at ? { ...one, ...fields } : one)));
  const again = () => {
    const last = masses.at(-1) ?? { name: '', mass: 20, known: 'printed' as const, within: 0 };
    const numbers = masses.map((one) => Number(one.id.slice(1))).filter(Number.isFinite);
    onChange([...masses, { ...last, id: `m${Math.max(0, ...numbers) + 1}` }]);
  };
  return (
    <fieldset className="mass-rows">
      <legend>{t.masses}</legend>
      <ol className="field-rows">
        {masses.map((one, i) => (
          <li key={one.id}>
            <div className="field">
              <label htmlFor={`${id}n${one.id}`}>{t.name}</label>
              <input
                id={`${id}n${one.id}`}
                value={one.name}
                maxLength={100}
                onChange={(event) => change(i, { name: event.target.value })}
              />
            </div>
            <div className="field">
              <label htmlFor={`${id}m${one.id}`}>{t.kilograms}</label>
              <input
                id={`${id}m${one.id}`}
                type="number"
                step="any"
                min="0"
                value={one.mass || ''}
                onChange={(event) => change(i, { mass: Number(event.target.value) })}
              />
            </div>
            <div className="field">
              <label htmlFor={`${id}k${one.id}`}>{t.known}</label>
              <select
                id={`${id}k${one.id}`}
                value={one.known}
                onChange={(event) => change(i, { known: event.target.value as MassView['known'] })}
              >
                {knowns.map((known) => (
                  <option key={known} value={known}>
                    {t.knowns[known]}
                  </option>
                ))}
              </select>
            </div>
            <div className="field">
              <label htmlFor={`${id}w${one.id}`}>{t.within}</label>
              <input
                id={`${id}w${one.id}`}
                type="number"
                step="any"
                min="0"
                disabled={one.known === 'printed'}
                value={one.known === 'printed' ? '' : 1000 * one.within}
                onChange={(event) => change(i, { within: Number(event.target.value) / 1000 })}
              />
            </div>
            <div className="field">
              <label htmlFor={`${id}r${one.id}`}>{t.reference}</label>
              <input
                id={`${id}r${one.id}`}
                value={one.reference ?? ''}
                maxLength={200}
                onChange={(event) => change(i, { reference: event.target.value || undefined })}
              />
            </div>
            <button
              type="button"
              className="button quiet"
              aria-label={t.drop(one.name)}
              onClick={() => onChange(masses.filter((_, at) => at !== i))}
            >
              <Icon name="close" size={16} />
            </button>
          </li>
        ))}
      </ol>
      <button type="button" className="button" onClick={again}>
        <Icon name="plus" size={16} /> {t.again}
      </button>
    </fieldset>
  );
}
