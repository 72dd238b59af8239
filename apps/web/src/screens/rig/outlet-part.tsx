import { type LabId, liveRoutes, type RigView } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useId } from 'react';
import { useMay } from '../../data/access.ts';
import { outletSettingsQuery, rigOutletQuery, useOutletAct } from '../../data/outlet.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { rigWords } from '../../words/rig.ts';

/** Whether a rig offers its forces and marks to other programs, how far, and who reads them just now. */
export function OutletPart({ lab, rig }: { lab: LabId; rig: RigView }) {
  const t = rigWords.outlet;
  const id = useId();
  const may = useMay();
  const by = useSigned();
  const say = useSay();
  const act = useOutletAct(lab, rig.id);
  const rigOutlet = useQuery(rigOutletQuery(lab, rig.id));
  const settings = useQuery(outletSettingsQuery(lab));
  const decides = may(liveRoutes.changeRigOutlet);
  const signed = (then: (by: string) => void) => (by ? then(by) : say(dayWords.sign.needed));
  const outlet = rigOutlet.data;
  const allowed = settings.data;
  if (outlet === undefined || allowed === undefined) return null;
  const tick = (label: string, checked: boolean, change: (on: boolean, by: string) => void, help?: string) => (
    <>
      <label className="check-line">
        <input
          type="checkbox"
          checked={checked}
          disabled={!decides || act.isPending}
          onChange={(event) => {
            const on = event.target.checked;
            signed((name) => change(on, name));
          }}
        />
        {label}
      </label>
      {help && <p className="small soft">{help}</p>}
    </>
  );
  return (
    <section className="panel" aria-labelledby={id}>
      <h2 id={id}>{t.title}</h2>
      <p className="small soft">{t.help}</p>
      {tick(t.on, outlet.on, (on, name) => act.mutate({ kind: 'rig', on, by: name }))}
      {outlet.on && (
        <>
          {outlet.problem !== undefined && (
            <p className="field-error small" role="alert">
              {t.problem(outlet.problem)}
            </p>
          )}
          {outlet.streams.length === 0 ? (
            outlet.problem === undefined && <p className="small soft">{t.closed}</p>
          ) : (
            <ul className="dots small">
              {outlet.streams.map((one) => (
                <li key={one.sourceId}>
                  {one.name}: {t.stream(one.channels, one.rate, one.receivers)}
                </li>
              ))}
            </ul>
          )}
          <fieldset>
            <legend>{t.lab}</legend>
            {tick(
              t.network,
              allowed.network,
              (network, name) => act.mutate({ kind: 'lab', ...allowed, network, by: name }),
              t.networkHelp,
            )}
            {tick(t.athleteCode, allowed.athleteCode, (athleteCode, name) =>
              act.mutate({ kind: 'lab', ...allowed, athleteCode, by: name }),
            )}
          </fieldset>
        </>
      )}
      {!decides && <p className="small soft">{t.elsewhere}</p>}
      {act.isError && <ProblemCard error={act.error} />}
    </section>
  );
}
