import { type Day, type LabId, toOperator } from '@sthene/contract';
import { deviceNow } from './clock.ts';
import { deviceIdentity } from './device.ts';
import { Link, liveAddress } from './link.ts';
import { browserParts, parsed } from './parts.ts';

/** What a page that only looks at the day is told. */
export interface DayNews {
  /** The open day as it stands now; absent when none is open. */
  onDay(day: Day | undefined, at: number): void;
  onLink(open: boolean): void;
}

/** Follows the open day of a lab without commanding or sounding anything. @returns how to stop */
export function followDay(lab: LabId, news: DayNews): () => void {
  const device = deviceIdentity('operator');
  const link = new Link<ReturnType<typeof toOperator.parse>>(liveAddress(location), {
    ...browserParts,
    parse: parsed(toOperator),
    hello: () => ({ lab, role: 'viewer', device: { id: `${device.id}-day`, name: `Day ${device.id.slice(0, 4)}` } }),
    onMessage: (message) => {
      if (message.type === 'snapshot') news.onLink(true);
      if (message.type === 'snapshot' || message.type === 'day') news.onDay(message.day, deviceNow());
    },
    onLost: () => news.onLink(false),
    onOtherVersion: () => news.onLink(false),
  });
  link.start();
  return () => link.stop();
}
