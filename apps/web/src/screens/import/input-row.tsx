import { unitOf, units } from '@sthene/core';
import { useId, useState } from 'react';
import { numberText, unitText } from '../../number/format.ts';
import { importWords } from '../../words/importing.ts';
import type { DraftInput, Part } from './draft.ts';
import type { SourceInfo } from './worker/messages.ts';

const uses: readonly Part[] = ['no', 'left', 'right', 'total', 'none'];
const measurable = units.filter(({ dimension }) => dimension === 'force' || dimension === 'torque');
const names: Readonly<Record<string, string>> = { '[lbf_av]': 'lbf' };
const unitName = (code: string) => names[code] ?? unitText(code);

interface InputRowProps {
  readonly row: DraftInput;
  readonly source: SourceInfo | undefined;
  onChange(row: DraftInput): void;
}

/** One column or plate: its use, unit, sign, and for anything that is no force its gain and zero. */
export function InputRow({ row, source, onChange }: InputRowProps) {
  const t = importWords.columns;
  const id = useId();
  const used = row.use !== 'no';
  const dimension = unitOf(row.unit)?.dimension;
  const ready = dimension === 'force' || dimension === 'torque';
  const [calibrated, setCalibrated] = useState(row.gain !== '' || row.zero !== '');
  const usable = source?.usable !== false;
  const unknown = row.unit !== '' && !measurable.some(({ code }) => code === row.unit);
  return (
    <li className="input-row" data-used={used}>
      <div className="input-name">
        <b>{row.name}</b>
        <span className="small soft">
          {source?.type !== undefined && `${t.platform(source.type)}${usable ? '' : `, ${t.noVertical}`}`}
          {source?.range && (
            <span className="number">
              {source.type === undefined ? '' : ', '}
              {plain(source.range[0])} … {plain(source.range[1])}
              {source.unit === '' ? '' : `\u00a0${unitName(source.unit)}`}
            </span>
          )}
        </span>
      </div>
      <select
        aria-label={t.useOf(row.name)}
        value={row.use}
        disabled={!usable}
        onChange={(event) => onChange({ ...row, use: event.target.value as Part })}
      >
        {uses.map((use) => (
          <option key={use} value={use}>
            {t.use[use]}
          </option>
        ))}
      </select>
      {used && (
        <>
          <select
            aria-label={t.unitOf(row.name)}
            value={row.unit}
            onChange={(event) => onChange({ ...row, unit: event.target.value })}
          >
            {row.unit === '' && <option value="">{t.noUnit}</option>}
            {unknown && <option value={row.unit}>{t.ownUnit(unitName(row.unit))}</option>}
            {measurable.map(({ code }) => (
              <option key={code} value={code}>
                {code === source?.unit ? t.ownUnit(unitName(code)) : unitName(code)}
              </option>
            ))}
          </select>
          <label className="choice-line flip">
            <input
              type="checkbox"
              aria-label={t.flipOf(row.name)}
              checked={row.flipped}
              onChange={(event) => onChange({ ...row, flipped: event.target.checked })}
            />
            {t.flip}
          </label>
          {ready && !calibrated ? (
            <button type="button" className="link small calibrate" onClick={() => setCalibrated(true)}>
              {t.calibrate}
            </button>
          ) : (
            <div className="calibration">
              <div className="field">
                <label htmlFor={`${id}gain`}>{t.gain}</label>
                <input
                  id={`${id}gain`}
                  inputMode="decimal"
                  value={row.gain}
                  onChange={(event) => onChange({ ...row, gain: event.target.value })}
                />
              </div>
              <div className="field">
                <label htmlFor={`${id}zero`}>{t.zero}</label>
                <input
                  id={`${id}zero`}
                  inputMode="decimal"
                  value={row.zero}
                  onChange={(event) => onChange({ ...row, zero: event.target.value })}
                />
              </div>
              <p className="small soft">{t.gainHelp}</p>
            </div>
          )}
        </>
      )}
    </li>
  );
}

/** Three significant digits, at most four decimals; zero is just zero. */
const plain = (value: number) =>
  value === 0
    ? '0'
    : numberText(value, Math.min(4, Math.max(0, 2 - Math.floor(Math.log10(Math.max(1e-9, Math.abs(value)))))));
