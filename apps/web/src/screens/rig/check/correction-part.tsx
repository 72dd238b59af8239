import { type LabId, type RigChecksView, type RigCheckView, type RigView, rigCheckRoutes } from '@sthene/contract';
import { useState } from 'react';
import { useMay } from '../../../data/access.ts';
import { useCheckAct } from '../../../data/rig-checks.ts';
import { signedText } from '../../../number/format.ts';
import { whenText } from '../../../number/when.ts';
import { ProblemCard } from '../../../parts/problem-card.tsx';
import { useSigned } from '../../../parts/signed.tsx';
import { useSay } from '../../../parts/status.tsx';
import { dayWords } from '../../../words/day.ts';
import { rigCheckWords } from '../../../words/rig-check.ts';
import { EffectPart } from './effect-part.tsx';

const t = rigCheckWords.correction;

interface CorrectionProps {
  readonly lab: LabId;
  readonly rig: RigView;
  readonly checks: RigChecksView;
  readonly check: RigCheckView;
}

/** What is in force, the correction a check offers, and what it does to earlier sessions. */
export function CorrectionPart({ lab, rig, checks, check }: CorrectionProps) {
  const act = useCheckAct(lab, rig.id);
  const may = useMay();
  const [newest] = checks.corrections;
  const inForce = newest !== undefined && newest.plates.length > 0 ? newest : undefined;
  const offered =
    newest?.check !== check.id && check.result.verdict !== 'incomplete' && check.id === checks.checks[0]?.id;
  return (
    <section className="panel no-print" aria-labelledby="correction">
      <h2 id="correction">{t.title}</h2>
      <p>
        {inForce
          ? t.inForce(
              inForce.plates.map(({ plate, gain }) => `${plate} ${signedText(100 * (gain - 1), 2)}\u00a0%`).join(', '),
              inForce.by,
              whenText(inForce.at),
            )
          : t.none}
      </p>
      {inForce && inForce.check === check.id && <p className="soft">{t.again}</p>}
      {may(rigCheckRoutes.correctRig) && offered && <Adopt rig={rig} check={check} act={act} />}
      {may(rigCheckRoutes.correctRig) && inForce && <TakeBack act={act} />}
      {act.isError && <ProblemCard error={act.error} />}
      {inForce && may(rigCheckRoutes.correctionEffect) && (
        <EffectPart lab={lab} rig={rig} correction={inForce.id} key={inForce.id} />
      )}
    </section>
  );
}

type Act = ReturnType<typeof useCheckAct>;

function Adopt({ rig, check, act }: { rig: RigView; check: RigCheckView; act: Act }) {
  const by = useSigned();
  const say = useSay();
  const [reason, setReason] = useState('');
  const failed = (plate: string) =>
    check.result.quantities.some((one) => one.id === 'gain' && one.plate === plate && one.standing === 'fail');
  const [plates, setPlates] = useState(() => check.result.correction.map((one) => one.plate).filter(failed));
  return (
    <form
      className="correction-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (!by) return say(dayWords.sign.needed);
        act.mutate({ kind: 'correct', check: check.id, plates, reason, by }, { onSuccess: () => say(t.adopted) });
      }}
    >
      <p className="small soft">
        {t.help} {t.cannot}
      </p>
      <fieldset>
        <legend>{t.plates}</legend>
        {check.result.correction.map(({ plate, gain }) => (
          <label key={plate} className="check-line">
            <input
              type="checkbox"
              checked={plates.includes(plate)}
              onChange={(event) =>
                setPlates(event.target.checked ? [...plates, plate] : plates.filter((one) => one !== plate))
              }
            />{' '}
            {t.of(plate, signedText(100 * (gain - 1), 2))}
          </label>
        ))}
      </fieldset>
      <div className="field">
        <label htmlFor={`reason-${rig.id}`}>{t.reason}</label>
        <input
          id={`reason-${rig.id}`}
          value={reason}
          maxLength={2000}
          placeholder={t.reasonHint}
          onChange={(event) => setReason(event.target.value)}
        />
      </div>
      <button
        type="submit"
        className="button main"
        disabled={act.isPending || plates.length === 0 || reason.trim().length < 3}
      >
        {t.adopt}
      </button>
    </form>
  );
}

function TakeBack({ act }: { act: Act }) {
  const by = useSigned();
  const say = useSay();
  const [reason, setReason] = useState('');
  return (
    <details>
      <summary>{t.takeBack}</summary>
      <form
        className="typed-reading"
        onSubmit={(event) => {
          event.preventDefault();
          if (!by) return say(dayWords.sign.needed);
          act.mutate({ kind: 'correct', plates: [], reason, by }, { onSuccess: () => say(t.takenBack) });
        }}
      >
        <div className="field">
          <label htmlFor="take-back">{t.reason}</label>
          <input id="take-back" value={reason} maxLength={2000} onChange={(event) => setReason(event.target.value)} />
        </div>
        <button type="submit" className="button" disabled={act.isPending || reason.trim().length < 3}>
          {t.takeBack}
        </button>
      </form>
    </details>
  );
}
