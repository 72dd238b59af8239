import type { DeviceList as Devices, LabId, PairedDevice } from '@sthene/contract';
import { useState } from 'react';
import { useDeviceAct } from '../../data/access.ts';
import { whenText } from '../../number/when.ts';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { deviceWords } from '../../words/devices.ts';
import { RenameDialog, RevokeDialog } from './device-dialogs.tsx';

const t = deviceWords.list;

/** Devices in use, what each may do, and whether it is there now; those taken off are folded away. */
export function DeviceList({ lab, list }: { lab: LabId; list: Devices }) {
  const act = useDeviceAct(lab);
  const [renaming, setRenaming] = useState<PairedDevice>();
  const [leaving, setLeaving] = useState<PairedDevice>();
  const by = useSigned();
  const say = useSay();
  const signed = (then: (by: string) => void) => (by ? then(by) : say(dayWords.sign.needed));
  const inUse = list.devices.filter(({ revokedAt }) => revokedAt === undefined);
  const off = list.devices.filter(({ revokedAt }) => revokedAt !== undefined);
  return (
    <section className="panel" aria-labelledby="devices">
      <h2 id="devices">{t.title}</h2>
      {inUse.length === 0 && <p className="soft">{t.none}</p>}
      <ul className="device-list">
        {inUse.map((device) => (
          <li key={device.id}>
            <b>{device.name}</b>
            <span>{deviceWords.roles[device.role]}</span>
            <span className="standing" data-standing={device.connections > 0 ? 'good' : 'open'}>
              <Icon name={device.connections > 0 ? 'pass' : 'not-judged'} size={16} />
              {device.connections > 0 ? t.connected(device.connections) : t.seen(whenText(device.lastSeen, false))}
            </span>
            <span className="device-acts">
              <button
                type="button"
                className="button"
                aria-label={t.renameOf(device.name)}
                onClick={() => setRenaming(device)}
              >
                {t.rename}
              </button>
              <button
                type="button"
                className="button"
                aria-label={t.revokeOf(device.name)}
                onClick={() => setLeaving(device)}
              >
                {t.revoke}
              </button>
            </span>
          </li>
        ))}
      </ul>
      {act.isError && <ProblemCard error={act.error} />}
      {off.length > 0 && (
        <details className="small">
          <summary>{t.off(off.length)}</summary>
          <ul>
            {off.map(({ id, name, role, revokedAt = '' }) => (
              <li key={id}>
                {name} ({deviceWords.roles[role]}), {t.offAt(whenText(revokedAt, false))}
              </li>
            ))}
          </ul>
        </details>
      )}
      {renaming && (
        <RenameDialog
          device={renaming}
          onClose={() => setRenaming(undefined)}
          onSave={(name) => signed((who) => act.mutate({ kind: 'rename', id: renaming.id, name, by: who }))}
        />
      )}
      {leaving && (
        <RevokeDialog
          device={leaving}
          onClose={() => setLeaving(undefined)}
          onRevoke={() =>
            signed((who) =>
              act.mutate(
                { kind: 'revoke', id: leaving.id, by: who },
                { onSuccess: () => say(t.takenOff(leaving.name)) },
              ),
            )
          }
        />
      )}
    </section>
  );
}
