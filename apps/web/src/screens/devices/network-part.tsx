import type { NetworkView } from '@sthene/contract';
import { useState } from 'react';
import { useSwitchNetwork } from '../../data/access.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { deviceWords } from '../../words/devices.ts';
import { Qr } from './qr.tsx';

const t = deviceWords.network;

/** First step: whether the room reaches the station, and where. */
export function NetworkPart(props: {
  network: NetworkView;
  address: string | undefined;
  onAddress: (url: string) => void;
}) {
  const { network } = props;
  const change = useSwitchNetwork();
  const [closing, setClosing] = useState(false);
  const by = useSigned();
  const say = useSay();
  const turn = (on: boolean) => {
    setClosing(false);
    if (by) change.mutate({ on, by });
    else say(dayWords.sign.needed);
  };
  return (
    <section className="panel" aria-labelledby="network">
      <h2 id="network">{t.title}</h2>
      <p className="door" data-open={network.open}>
        <Icon name={network.open ? 'pass' : network.on ? 'fail' : 'not-judged'} />
        <b>{network.open ? t.open : network.on ? t.failed : t.off}</b>
      </p>
      {network.problem && (
        <div className="band" role="alert">
          <p>{network.problem.detail}</p>
          <p>{network.problem.next}</p>
          <p className="small soft number">{network.problem.code}</p>
        </div>
      )}
      {!network.open && <p className="small soft">{t.help}</p>}
      {network.open && <Addresses {...props} />}
      {change.isError && <ProblemCard error={change.error} />}
      <div className="acts">
        {network.open ? (
          <button type="button" className="button" disabled={change.isPending} onClick={() => setClosing(true)}>
            {t.turnOff}
          </button>
        ) : (
          <button type="button" className="button main" disabled={change.isPending} onClick={() => turn(true)}>
            {t.turnOn}
          </button>
        )}
      </div>
      {closing && (
        <Dialog title={t.closing} onClose={() => setClosing(false)}>
          <p>{t.closingText}</p>
          <div className="dialog-acts">
            <button type="button" className="button main" onClick={() => turn(false)}>
              {t.turnOff}
            </button>
            <button type="button" className="button" onClick={() => setClosing(false)}>
              {t.cancel}
            </button>
          </div>
        </Dialog>
      )}
    </section>
  );
}

function Addresses(props: { network: NetworkView; address: string | undefined; onAddress: (url: string) => void }) {
  const { network, address, onAddress } = props;
  if (address === undefined) return <p>{t.nowhere}</p>;
  return (
    <div className="with-qr">
      <div>
        <fieldset>
          <legend>{t.address}</legend>
          {network.addresses.map(({ url }) => (
            <label key={url} className="check-line">
              <input type="radio" name="address" checked={url === address} onChange={() => onAddress(url)} />
              <span className="number address">{url}</span>
            </label>
          ))}
        </fieldset>
        <p className="small soft">{t.addressHelp}</p>
        {network.uncovered.length > 0 && <p className="small">{t.uncovered(network.uncovered.join(', '))}</p>}
      </div>
      <Qr text={`${address}pair`} label={t.qr(`${address}pair`)} />
    </div>
  );
}
