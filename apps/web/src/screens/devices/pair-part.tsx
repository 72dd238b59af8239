import type { DeviceList, LabId, LiveRole, MadeCode, NetworkView } from '@sthene/contract';
import { useId, useState } from 'react';
import { useMakeCode } from '../../data/access.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { deviceWords } from '../../words/devices.ts';
import { CodeCard } from './code-card.tsx';

const t = deviceWords.pair;
const roles: readonly LiveRole[] = ['operator', 'wall', 'viewer'];

/** Third step: a code for one device, with its name and what it may do. */
export function PairPart(props: { lab: LabId; network: NetworkView; address: string | undefined; list: DeviceList }) {
  const { lab, network, address, list } = props;
  const [code, setCode] = useState<MadeCode>();
  const make = useMakeCode(lab);
  const by = useSigned();
  const say = useSay();
  const again = (name: string, role: LiveRole) => {
    if (by) make.mutate({ name, role, by }, { onSuccess: setCode });
    else say(dayWords.sign.needed);
  };
  return (
    <section className="panel" aria-labelledby="pair">
      <h2 id="pair">{t.title}</h2>
      <p className="small soft">{t.lead}</p>
      {code === undefined || address === undefined ? (
        <PairForm disabled={!network.open || make.isPending} onMake={again} />
      ) : (
        <CodeCard
          lab={lab}
          code={code}
          address={address}
          list={list}
          onAgain={() => again(code.name, code.role)}
          onDone={() => setCode(undefined)}
        />
      )}
      {!network.open && <p className="small">{t.needsOpen}</p>}
      {make.isError && <ProblemCard error={make.error} />}
      {list.wrongCodes > 0 && <p className="small">{t.wrong(list.wrongCodes)}</p>}
    </section>
  );
}

function PairForm({ disabled, onMake }: { disabled: boolean; onMake: (name: string, role: LiveRole) => void }) {
  const [name, setName] = useState('');
  const [role, setRole] = useState<LiveRole>('operator');
  const [missing, setMissing] = useState(false);
  const id = useId();
  return (
    <form
      className="pair-form"
      onSubmit={(event) => {
        event.preventDefault();
        setMissing(name.trim() === '');
        if (name.trim() !== '') onMake(name.trim(), role);
      }}
    >
      <div className="field">
        <label htmlFor={id}>{t.name}</label>
        <input
          id={id}
          value={name}
          maxLength={60}
          placeholder={t.nameHint}
          aria-invalid={missing}
          onChange={(event) => setName(event.target.value)}
        />
        {missing && (
          <p className="field-error" role="alert">
            {t.needsName}
          </p>
        )}
      </div>
      <fieldset>
        <legend>{t.role}</legend>
        {roles.map((one) => (
          <label key={one} className="check-line role-line">
            <input type="radio" name="role" checked={one === role} onChange={() => setRole(one)} />
            <span>
              <b>{deviceWords.roles[one]}</b>
              <span className="small soft">{deviceWords.roleHelp[one]}</span>
            </span>
          </label>
        ))}
      </fieldset>
      <div className="acts">
        <button type="submit" className="button main" disabled={disabled}>
          {t.make}
        </button>
      </div>
    </form>
  );
}
