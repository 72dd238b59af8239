import { useEffect, useState } from 'react';

/** What browsers that tell of the battery tell; it is no part of the usual types. */
interface Battery extends EventTarget {
  readonly level: number;
  readonly charging: boolean;
}

/** Under this share it is said. */
const low = 0.2;

/** Share of the battery of this device when it is low and not being charged; undefined else, and where no browser tells. */
export function useLowBattery(): number | undefined {
  const [left, setLeft] = useState<number>();
  useEffect(() => {
    const ask = (navigator as { getBattery?: () => Promise<Battery> }).getBattery;
    if (ask === undefined) return;
    let battery: Battery | undefined;
    let gone = false;
    const look = () => {
      if (battery !== undefined) setLeft(!battery.charging && battery.level < low ? battery.level : undefined);
    };
    ask
      .call(navigator)
      .then((found) => {
        if (gone) return;
        battery = found;
        look();
        for (const change of ['levelchange', 'chargingchange']) found.addEventListener(change, look);
      })
      .catch(() => {});
    return () => {
      gone = true;
      for (const change of ['levelchange', 'chargingchange']) battery?.removeEventListener(change, look);
    };
  }, []);
  return left;
}
