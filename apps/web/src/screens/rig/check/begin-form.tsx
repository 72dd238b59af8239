import {
  type LabId,
  type MassView,
  type RigCheckBegin,
  type RigCheckSettings,
  type RigView,
  rigCheckRoutes,
} from '@sthene/contract';
import { weighingGravity } from '@sthene/core';
import { useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { useMay } from '../../../data/access.ts';
import { rigCheckSettingsQuery, useCheckAct, useKeepCheckSettings } from '../../../data/rig-checks.ts';
import { numberText } from '../../../number/format.ts';
import { Answer } from '../../../parts/answer.tsx';
import { ProblemCard } from '../../../parts/problem-card.tsx';
import { useSigned } from '../../../parts/signed.tsx';
import { useSay } from '../../../parts/status.tsx';
import { dayWords } from '../../../words/day.ts';
import { rigCheckWords } from '../../../words/rig-check.ts';
import { MassRows } from './mass-rows.tsx';

const t = rigCheckWords.begin;

/** Masses, gravity and series of a check that is to begin; what the lab used last stands there already. */
export function BeginForm({ lab, rig }: { lab: LabId; rig: RigView }) {
  const settings = useQuery(rigCheckSettingsQuery(lab));
  return <Answer of={settings}>{(kept) => <Filled lab={lab} rig={rig} settings={kept} />}</Answer>;
}

/** Five steel plates of a set, as a club may have them, where the lab has kept none. */
const usualMasses: MassView[] = [1, 2, 3, 4, 5].map((n) => ({
  ...{ id: `m${n}`, name: `20 kg (${n})`, mass: 20, known: 'tolerance', within: 0.002 },
}));

function Filled({ lab, rig, settings }: { lab: LabId; rig: RigView; settings: RigCheckSettings }) {
  const id = useId();
  const act = useCheckAct(lab, rig.id);
  const by = useSigned();
  const say = useSay();
  const [masses, setMasses] = useState<MassView[]>(settings.masses.length > 0 ? settings.masses : usualMasses);
  const [series, setSeries] = useState(3);
  const [spots, setSpots] = useState(false);
  const [gravity, setGravity] = useState<RigCheckBegin['gravity']>(settings.gravity);
  const [air, setAir] = useState(settings.airDensity);
  const mayKeep = useMay()(rigCheckRoutes.changeRigCheckSettings);
  const [remember, setRemember] = useState(true);
  const keep = useKeepCheckSettings(lab);
  const bad = masses.length === 0 || masses.some((one) => one.name.trim() === '' || !(one.mass > 0));
  const live = rig.state !== 'closed';
  return (
    <form
      className="panel check-begin no-print"
      onSubmit={(event) => {
        event.preventDefault();
        if (bad) return say(t.massBad);
        if (!by) return say(dayWords.sign.needed);
        act.mutate({ kind: 'begin', body: { masses, gravity, airDensity: air, series, spots, by } });
        const site = { uncertainty: settings.gravity.uncertainty, ...gravity };
        if (mayKeep && remember) keep.mutate({ ...settings, masses, gravity: site, airDensity: air, by });
      }}
    >
      <h2>{t.title}</h2>
      <p>{t.how}</p>
      <p className="band">{t.lift}</p>
      <MassRows masses={masses} onChange={setMasses} />
      <div className="field-grid">
        <div className="field">
          <label htmlFor={`${id}series`}>{t.series}</label>
          <select id={`${id}series`} value={series} onChange={(event) => setSeries(Number(event.target.value))}>
            {[1, 2, 3, 4, 5].map((n) => (
              <option key={n}>{n}</option>
            ))}
          </select>
        </div>
      </div>
      <label className="check-line">
        <input type="checkbox" checked={spots} onChange={(event) => setSpots(event.target.checked)} /> {t.spots}
      </label>
      <details>
        <summary>
          {t.gravity}: {numberText(gravity.value, 5)} m/s²
        </summary>
        <GravityFields gravity={gravity} kept={settings.gravity} onChange={setGravity} />
        <div className="field">
          <label htmlFor={`${id}air`}>{t.air}</label>
          <input
            id={`${id}air`}
            type="number"
            step="0.001"
            min="0.8"
            max="1.5"
            value={air}
            onChange={(event) => setAir(Number(event.target.value))}
          />
        </div>
      </details>
      {mayKeep && (
        <label className="check-line">
          <input type="checkbox" checked={remember} onChange={(event) => setRemember(event.target.checked)} />{' '}
          {t.remember}
        </label>
      )}
      {!live && <p className="soft">{t.closedNote}</p>}
      {act.isError && <ProblemCard error={act.error} />}
      <div className="acts">
        <button type="submit" className="button main" disabled={act.isPending}>
          {live ? t.act : t.actTyped}
        </button>
      </div>
    </form>
  );
}

type Gravity = RigCheckBegin['gravity'];

/** What the station will reckon with, shown at once. */
const atPlace = ({ latitude = 0, altitude = 0 }: Gravity): Gravity => ({
  ...{ value: weighingGravity(latitude, altitude), from: 'place', latitude, altitude },
});

function GravityFields({
  gravity,
  kept,
  onChange,
}: {
  gravity: Gravity;
  kept: Gravity;
  onChange: (gravity: Gravity) => void;
}) {
  const id = useId();
  const number = (label: string, name: string, value: number | undefined, then: (value: number) => void) => (
    <div className="field">
      <label htmlFor={id + name}>{label}</label>
      <input
        id={id + name}
        type="number"
        step="any"
        value={value ?? ''}
        onChange={(event) => then(Number(event.target.value))}
      />
    </div>
  );
  const place = gravity.from === 'place';
  return (
    <div className="field-grid">
      <div className="field">
        <label htmlFor={`${id}from`}>{t.gravity}</label>
        <select
          id={`${id}from`}
          value={gravity.from}
          onChange={(event) =>
            onChange(
              event.target.value === 'place'
                ? atPlace({ ...gravity, latitude: gravity.latitude ?? 50, altitude: gravity.altitude ?? 0 })
                : { value: kept.value, from: 'entered' },
            )
          }
        >
          <option value="entered">{t.fromEntered}</option>
          <option value="place">{t.fromPlace}</option>
        </select>
      </div>
      {place && number(t.latitude, 'lat', gravity.latitude, (latitude) => onChange(atPlace({ ...gravity, latitude })))}
      {place && number(t.altitude, 'alt', gravity.altitude, (altitude) => onChange(atPlace({ ...gravity, altitude })))}
      {!place && number(t.entered, 'g', gravity.value, (value) => onChange({ value, from: 'entered' }))}
    </div>
  );
}
