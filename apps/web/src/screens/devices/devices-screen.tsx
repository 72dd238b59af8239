import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { devicesQuery, networkQuery, onStation } from '../../data/access.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst } from '../../parts/signed.tsx';
import { deviceWords as t } from '../../words/devices.ts';
import { words } from '../../words/index.ts';
import { DeviceList } from './device-list.tsx';
import { NetworkPart } from './network-part.tsx';
import { PairPart } from './pair-part.tsx';
import { TrustPart } from './trust-part.tsx';
import '../../parts/form.css';
import './devices.css';

/** Bring devices in, in three steps, and see which are there. On the station only: it decides who comes in. */
export function DevicesScreen() {
  usePageTitle(t.title);
  return (
    <section className="page live-page devices-page">
      <div className="page-head">
        <h1>{t.title}</h1>
        <p className="soft">{t.lead}</p>
      </div>
      {onStation() ? <Devices /> : <p>{t.onlyStation}</p>}
    </section>
  );
}

function Devices() {
  const lab = useLab() ?? 'lab';
  const network = useQuery(networkQuery());
  const devices = useQuery(devicesQuery(lab, 2_000));
  const [chosen, setChosen] = useState<string>();
  const failed = network.isError ? network : devices.isError ? devices : undefined;
  if (failed !== undefined) return <ProblemCard error={failed.error} onRetry={() => void failed.refetch()} />;
  if (network.data === undefined || devices.data === undefined)
    return (
      <p className="soft" role="status">
        {words.app.loading}
      </p>
    );
  const urls = network.data.addresses.map(({ url }) => url);
  const address = chosen !== undefined && urls.includes(chosen) ? chosen : urls[0];
  return (
    <>
      <SignFirst />
      <div className="device-columns">
        <div>
          <NetworkPart network={network.data} address={address} onAddress={setChosen} />
          <TrustPart network={network.data} />
        </div>
        <div>
          <PairPart lab={lab} network={network.data} address={address} list={devices.data} />
          <DeviceList lab={lab} list={devices.data} />
        </div>
      </div>
    </>
  );
}
