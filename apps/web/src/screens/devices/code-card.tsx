import type { DeviceList, LabId, MadeCode } from '@sthene/contract';
import { useEffect, useState } from 'react';
import { useDeviceAct } from '../../data/access.ts';
import { Icon } from '../../parts/icon.tsx';
import { deviceWords } from '../../words/devices.ts';
import { Qr } from './qr.tsx';

const t = deviceWords.pair;

/** A code while it waits, when it was used, and when it is too late. */
export function CodeCard(props: {
  lab: LabId;
  code: MadeCode;
  address: string;
  list: DeviceList;
  onAgain: () => void;
  onDone: () => void;
}) {
  const { lab, code, address, list, onAgain, onDone } = props;
  const act = useDeviceAct(lab);
  const [now, setNow] = useState(Date.now);
  const [seen, setSeen] = useState<string>();
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, []);
  const waits = list.waiting.some(({ id }) => id === code.id);
  useEffect(() => {
    if (waits) setSeen(code.id);
  }, [waits, code.id]);
  const left = Math.ceil((Date.parse(code.expiresAt) - now) / 1000);
  if (left <= 0)
    return (
      <div className="code-card">
        <p role="alert">{t.expired}</p>
        <button type="button" className="button main" onClick={onAgain}>
          {t.again}
        </button>
      </div>
    );
  // It was on the list and is not any more: a device used it.
  if (seen === code.id && !waits)
    return (
      <div className="code-card">
        <p className="door" data-open="true" role="status">
          <Icon name="pass" />
          <b>{t.done(code.name)}</b>
        </p>
        <button type="button" className="button" onClick={onDone}>
          {t.another}
        </button>
      </div>
    );
  return (
    <div className="code-card">
      <p>
        <b>{code.name}</b> <span className="soft">({deviceWords.roles[code.role]})</span>
      </p>
      <div className="with-qr">
        <div>
          <p className="small soft">{t.scan}</p>
          <p className="pair-code number">{code.shown}</p>
          <p className="small">
            {t.at} <span className="number address">{`${address}pair`}</span>
          </p>
          <p className="small soft" data-left={left}>
            {t.left(`${Math.floor(left / 60)}:${String(left % 60).padStart(2, '0')}`)}
          </p>
        </div>
        <Qr text={`${address}pair#${code.code}`} label={deviceWords.network.qr(`${address}pair`)} />
      </div>
      <button
        type="button"
        className="button"
        onClick={() => act.mutate({ kind: 'withdraw', id: code.id }, { onSettled: onDone })}
      >
        {t.withdraw}
      </button>
    </div>
  );
}
