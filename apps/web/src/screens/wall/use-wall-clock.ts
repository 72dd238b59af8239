import { useEffect, useState } from 'react';
import { deviceNow } from '../../live/index.ts';

/** The clock of this device twice a second, ms. */
export function useWallClock(): number {
  const [now, setNow] = useState(deviceNow);
  useEffect(() => {
    const timer = setInterval(() => setNow(deviceNow()), 500);
    return () => clearInterval(timer);
  }, []);
  return now;
}
