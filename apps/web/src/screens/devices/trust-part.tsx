import type { NetworkView } from '@sthene/contract';
import { whenText } from '../../number/when.ts';
import { deviceWords } from '../../words/devices.ts';
import { TrustFiles, TrustSteps } from './trust-steps.tsx';

const t = deviceWords.trust;

/** Second step: how a device is told to trust the station, with the fingerprint to compare. */
export function TrustPart({ network }: { network: NetworkView }) {
  const { authority } = network;
  return (
    <section className="panel" aria-labelledby="trust">
      <h2 id="trust">{t.title}</h2>
      <p className="small soft">{t.lead}</p>
      {authority === undefined ? (
        <p className="small soft">{t.afterOpening}</p>
      ) : (
        <>
          <dl className="authority">
            <dt>{t.fingerprint}</dt>
            <dd className="number fingerprint">
              {(authority.fingerprint.match(/.{1,12}/g) ?? []).map((group) => (
                <span key={group}>{group}</span>
              ))}
            </dd>
            <dt>{t.name}</dt>
            <dd>{authority.name}</dd>
            <dt>{t.until}</dt>
            <dd>{whenText(authority.until, false)}</dd>
          </dl>
          <p>{t.compare}</p>
          <p className="small soft">{t.limits}</p>
          <TrustSteps />
          <p className="small soft">{t.byHand}</p>
          <TrustFiles />
        </>
      )}
    </section>
  );
}
