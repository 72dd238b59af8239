import type { BatteryOrder, LabId, RigView } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';
import { useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { Link, useNavigate } from 'react-router';
import { squadsQuery, useCreateDay } from '../../data/days.ts';
import { rigsQuery } from '../../data/rigs.ts';
import { dayText } from '../../number/when.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { RigLetter } from '../../parts/rig-letter.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { ProtocolChoice } from '../protocols/choice.tsx';
import { inUsualOrder } from './battery.ts';
import { BatteryChoice } from './battery-choice.tsx';
import { PeoplePicker } from './people-picker.tsx';

const usual = 3;
const maximumTests = 5;
const wallNames = ['given-name', 'name', 'code'] as const;

/** The newest check with known masses says no, and nothing was put right since. */
const failed = ({ check }: RigView): boolean => check?.failed === true;

/** Who, with which test, on which rigs. Everything can be changed later; only a date and a test are needed. */
export function PlanForm({ lab, onClose }: { lab: LabId; onClose: () => void }) {
  const t = dayWords.plan;
  const rigs = useQuery(rigsQuery(lab));
  const squads = useQuery(squadsQuery(lab));
  const create = useCreateDay(lab);
  const navigate = useNavigate();
  const by = useSigned();
  const say = useSay();
  const id = useId();
  const [date, setDate] = useState(() => dayText(new Date().toISOString()));
  const [title, setTitle] = useState('');
  const [tests, setTests] = useState<readonly string[]>(['imtp']);
  // Until somebody changes it the order is the usual one.
  const [ownOrder, setOwnOrder] = useState(false);
  const [battery, setBattery] = useState<BatteryOrder | ''>('by-test');
  const [testRigs, setTestRigs] = useState<Readonly<Record<string, string>>>({});
  const [protocols, setProtocols] = useState<Readonly<Record<string, string>>>({});
  const [turned, setTurned] = useState<readonly string[]>([]);
  const [squad, setSquad] = useState('');
  const [people, setPeople] = useState<readonly string[]>([]);
  const [wall, setWall] = useState<(typeof wallNames)[number]>('given-name');
  const [handsFree, setHandsFree] = useState(false);
  const [tried, setTried] = useState(false);
  const missing = tests.length === 0 ? t.needsTest : date === '' ? t.needsDate : '';
  // Plates that failed their check are taken by a person or not at all.
  const isChosen = (rig: RigView) => turned.includes(rig.id) === failed(rig);
  const all = protocolRegistry.all;
  const chosenRigs = (rigs.data ?? []).filter(isChosen);
  const tick = (test: string, on: boolean) => {
    const next = on ? [...tests, test] : tests.filter((one) => one !== test);
    setTests(ownOrder ? next : inUsualOrder(next));
  };
  const testBox = (test: (typeof all)[number]) => (
    <div key={test.id}>
      <label className="check-line">
        <input
          type="checkbox"
          checked={tests.includes(test.id)}
          disabled={!tests.includes(test.id) && tests.length >= maximumTests}
          onChange={(event) => tick(test.id, event.target.checked)}
        />
        {test.title}
      </label>
      {tests.includes(test.id) && (
        <ProtocolChoice
          lab={lab}
          test={test.id}
          value={protocols[test.id] ?? ''}
          onChange={(sha256) => setProtocols({ ...protocols, [test.id]: sha256 })}
        />
      )}
    </div>
  );
  const boundRigs = () =>
    Object.fromEntries(
      tests.flatMap((test) => {
        const rig = testRigs[test];
        return chosenRigs.some((one) => one.id === rig) && rig !== undefined ? [[test, [rig]]] : [];
      }),
    );
  const send = () => {
    setTried(true);
    if (missing) return;
    if (!by) return say(dayWords.sign.needed);
    create.mutate(
      {
        date,
        title: title.trim(),
        tests: tests.map((test) => (protocols[test] ? { protocol: protocols[test] } : test)),
        rigs: chosenRigs.map(({ id: rig }) => rig),
        ...(tests.length > 1 && battery !== '' ? { battery } : {}),
        ...(tests.length > 1 ? { testRigs: boundRigs() } : {}),
        people: [...people],
        ...(squad ? { squad } : {}),
        handsFree,
        wallNames: wall,
        by,
      },
      { onSuccess: (day) => void navigate(`/${lab}/day/${day.id}`) },
    );
  };
  return (
    <form
      className="panel plan-form"
      aria-labelledby={`${id}title`}
      onSubmit={(event) => {
        event.preventDefault();
        send();
      }}
    >
      <h2 id={`${id}title`}>{t.title}</h2>
      <div className="plan-columns">
        <div className="plan-part">
          <div className="field">
            <label htmlFor={`${id}date`}>{t.date}</label>
            <input id={`${id}date`} type="date" value={date} onChange={(event) => setDate(event.target.value)} />
          </div>
          <div className="field">
            <label htmlFor={`${id}name`}>{t.name}</label>
            <input
              id={`${id}name`}
              value={title}
              maxLength={200}
              placeholder={t.nameHint}
              onChange={(event) => setTitle(event.target.value)}
            />
          </div>
          <fieldset>
            <legend>{t.tests}</legend>
            {all.slice(0, usual).map(testBox)}
            <details open={tests.some((one) => all.findIndex((test) => test.id === one) >= usual)}>
              <summary>{t.moreTests}</summary>
              {all.slice(usual).map(testBox)}
            </details>
            <p className="small soft">{t.testsHelp}</p>
          </fieldset>
          <fieldset>
            <legend>{t.rigs}</legend>
            {rigs.data?.length === 0 && (
              <p className="small">
                {t.noRigs} <Link to={`/${lab}/rig`}>{t.setUpRig}</Link>
              </p>
            )}
            {rigs.data?.map((rig) => (
              <label key={rig.id} className="check-line">
                <input
                  type="checkbox"
                  checked={isChosen(rig)}
                  onChange={() =>
                    setTurned(turned.includes(rig.id) ? turned.filter((one) => one !== rig.id) : [...turned, rig.id])
                  }
                />
                <RigLetter letter={rig.letter} shape={rig.shape} size={24} />
                {rig.name}
                {failed(rig) && <span className="small soft">{t.rigFailed}</span>}
              </label>
            ))}
          </fieldset>
          <fieldset>
            <legend>{t.wall}</legend>
            {wallNames.map((one) => (
              <label key={one} className="check-line">
                <input type="radio" name={`${id}wall`} checked={wall === one} onChange={() => setWall(one)} />
                {t.wallNames[one]}
              </label>
            ))}
          </fieldset>
          <label className="check-line">
            <input type="checkbox" checked={handsFree} onChange={(event) => setHandsFree(event.target.checked)} />
            {t.handsFree}
          </label>
        </div>
        <div className="plan-part">
          {tests.length > 1 && (
            <BatteryChoice
              tests={tests}
              battery={battery}
              rigs={chosenRigs}
              testRigs={testRigs}
              onBattery={setBattery}
              onOrder={(next, own) => {
                setTests(next);
                setOwnOrder(own);
              }}
              onRig={(test, rig) => setTestRigs({ ...testRigs, [test]: rig })}
            />
          )}
          <div className="field">
            <label htmlFor={`${id}squad`}>{t.squad}</label>
            <select id={`${id}squad`} value={squad} onChange={(event) => setSquad(event.target.value)}>
              <option value="">{t.noSquad}</option>
              {squads.data?.map((one) => (
                <option key={one.id} value={one.id}>
                  {t.members(one.name, one.members)}
                </option>
              ))}
            </select>
          </div>
          <PeoplePicker lab={lab} chosen={people} onChange={setPeople} />
        </div>
      </div>
      {tried && missing && (
        <p className="field-error" role="alert">
          {missing}
        </p>
      )}
      {create.isError && <ProblemCard error={create.error} />}
      <div className="acts">
        <button type="submit" className="button main" disabled={create.isPending}>
          {t.act}
        </button>
        <button type="button" className="button" onClick={onClose}>
          {dayWords.cancel}
        </button>
      </div>
    </form>
  );
}
