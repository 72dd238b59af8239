import type { DayEntry, GateDraft, LabId, StandingGate } from '@sthene/contract';
import { useState } from 'react';
import { useGateAct } from '../../data/days.ts';
import { dayText } from '../../number/when.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { dayWords } from '../../words/day.ts';
import { testTitle } from '../trial/test-title.ts';
import { GateMark } from './gate-mark.tsx';

interface GatesProps {
  readonly lab: LabId;
  readonly day: string;
  readonly entry: DayEntry;
}

/** What keeps this athlete from an effort, as gates; each can be lifted by name and with a reason. */
export function GatesPart({ lab, day, entry }: GatesProps) {
  const t = dayWords.gates;
  const act = useGateAct(lab, day);
  const [lifting, setLifting] = useState<StandingGate>();
  const [adding, setAdding] = useState(false);
  return (
    <section className="detail">
      <h3>{t.title}</h3>
      {entry.gates.length === 0 && <p className="small soft">{t.none}</p>}
      <ul className="gate-list">
        {entry.gates.map((gate) => (
          <li key={`${gate.kind}${gate.limb}${gate.id ?? ''}`}>
            <GateMark gate={gate} full />
            {gate.id !== undefined && gate.effect !== 'notes' && (
              <button
                type="button"
                className="button quiet"
                aria-label={t.releaseTitle(gate.words)}
                onClick={() => setLifting(gate)}
              >
                {t.release}
              </button>
            )}
          </li>
        ))}
      </ul>
      <div className="acts">
        <button type="button" className="button" onClick={() => setAdding(true)}>
          {t.add}
        </button>
      </div>
      {lifting && <LiftDialog gate={lifting} act={act} onClose={() => setLifting(undefined)} />}
      {adding && <AddDialog person={entry.person.id} test={entry.test} act={act} onClose={() => setAdding(false)} />}
    </section>
  );
}

type Act = ReturnType<typeof useGateAct>;

function LiftDialog({ gate, act, onClose }: { gate: StandingGate; act: Act; onClose: () => void }) {
  const t = dayWords.gates;
  const by = useSigned();
  const [reason, setReason] = useState('');
  const [tried, setTried] = useState(false);
  const missing = !by ? dayWords.sign.needed : reason.trim() === '' ? t.needsReason : '';
  return (
    <Dialog title={t.releaseTitle(gate.words)} onClose={onClose}>
      <form
        className="dialog-form"
        onSubmit={(event) => {
          event.preventDefault();
          setTried(true);
          if (!missing && gate.id !== undefined)
            act.mutate({ kind: 'release', gate: gate.id, reason: reason.trim(), by }, { onSuccess: onClose });
        }}
      >
        <p className="soft">{t.releaseHelp}</p>
        <label className="field">
          <span className="label">{t.reason}</span>
          <textarea value={reason} maxLength={500} onChange={(event) => setReason(event.target.value)} />
        </label>
        <Foot act={act} error={tried ? missing : ''} yes={t.release} onClose={onClose} />
      </form>
    </Dialog>
  );
}

const kinds = ['clearance', 'submaximal-only', 'screening', 'consent'] as const;

const limbs = ['both', 'left', 'right'] as const;

interface AddProps {
  readonly person: string;
  /** The test of this entry; a clearance may be for it alone. */
  readonly test: string;
  readonly act: Act;
  onClose(): void;
}

function AddDialog({ person, test, act, onClose }: AddProps) {
  const t = dayWords.gates;
  const by = useSigned();
  const [kind, setKind] = useState<(typeof kinds)[number]>('clearance');
  const [granted, setGranted] = useState(true);
  const [until, setUntil] = useState('');
  const [limb, setLimb] = useState<(typeof limbs)[number]>('both');
  const [onlyTest, setOnlyTest] = useState(false);
  const narrow = kind === 'clearance' || kind === 'submaximal-only';
  const [note, setNote] = useState('');
  const [tried, setTried] = useState(false);
  const send = () => {
    setTried(true);
    if (!by) return;
    const from = dayText(new Date().toISOString());
    // A restriction is either in force or not recorded at all.
    const answer = kind === 'submaximal-only' ? true : granted;
    const draft = {
      kind,
      granted: answer,
      limb: narrow ? limb : 'both',
      ...(narrow && onlyTest ? { test } : {}),
      from,
      note,
      by,
      ...(until ? { until } : {}),
    } as GateDraft;
    act.mutate({ kind: 'add', person, draft }, { onSuccess: onClose });
  };
  return (
    <Dialog title={t.addTitle} onClose={onClose}>
      <form
        className="dialog-form"
        onSubmit={(event) => {
          event.preventDefault();
          send();
        }}
      >
        <label className="field">
          <span className="label">{t.kind}</span>
          <select value={kind} onChange={(event) => setKind(event.target.value as typeof kind)}>
            {kinds.map((one) => (
              <option key={one} value={one}>
                {t.kinds[one]}
              </option>
            ))}
          </select>
        </label>
        {kind !== 'submaximal-only' && (
          <fieldset>
            <legend>{t.granted}</legend>
            {[true, false].map((one) => (
              <label key={String(one)} className="check-line">
                <input type="radio" name="granted" checked={granted === one} onChange={() => setGranted(one)} />
                {one ? t.given : t.withheld}
              </label>
            ))}
          </fieldset>
        )}
        {narrow && (
          <div className="side-by-side">
            <label className="field">
              <span className="label">{t.limb}</span>
              <select value={limb} onChange={(event) => setLimb(event.target.value as typeof limb)}>
                {limbs.map((one) => (
                  <option key={one} value={one}>
                    {t.limbs[one]}
                  </option>
                ))}
              </select>
            </label>
            <label className="field">
              <span className="label">{t.test}</span>
              <select value={onlyTest ? test : ''} onChange={(event) => setOnlyTest(event.target.value !== '')}>
                <option value="">{t.everyTest}</option>
                <option value={test}>{testTitle(test)}</option>
              </select>
            </label>
          </div>
        )}
        <label className="field">
          <span className="label">{t.validUntil}</span>
          <input type="date" value={until} onChange={(event) => setUntil(event.target.value)} />
        </label>
        <label className="field">
          <span className="label">{t.note}</span>
          <input value={note} maxLength={2000} onChange={(event) => setNote(event.target.value)} />
        </label>
        <Foot act={act} error={tried && !by ? dayWords.sign.needed : ''} yes={t.add} onClose={onClose} />
      </form>
    </Dialog>
  );
}

function Foot({ act, error, yes, onClose }: { act: Act; error: string; yes: string; onClose: () => void }) {
  return (
    <>
      {error && (
        <p className="field-error small" role="alert">
          {error}
        </p>
      )}
      {act.isError && <ProblemCard error={act.error} />}
      <div className="dialog-acts">
        <button type="submit" className="button main" disabled={act.isPending}>
          {yes}
        </button>
        <button type="button" className="button" onClick={onClose}>
          {dayWords.cancel}
        </button>
      </div>
    </>
  );
}
