import { useState } from 'react';
import type { LiveState } from '../../live/index.ts';
import { numberText } from '../../number/format.ts';
import { liveWords as words } from '../../words/live.ts';
import { useLowBattery } from './use-battery.ts';

export interface NoticesProps {
  readonly state: LiveState;
  readonly rig: string;
  readonly unsent: string | undefined;
  readonly onRetry: () => void;
  readonly onDismiss: () => void;
  readonly onSeenBehind: () => void;
}

/** Notices of the station that are shown at once; the newest and gravest first. */
const mostShown = 2;
const graveness = { alarm: 0, warning: 1, note: 2 } as const;

/** What is not as it should be, most urgent first: no link, alarms, what was not done, and what this device misses. */
export function Notices({ state, rig, unsent, onRetry, onDismiss, onSeenBehind }: NoticesProps) {
  const { link, alerts, refused, behind } = state;
  // What a person has seen is laid aside until the same happens again.
  const [seen, setSeen] = useState<Readonly<Record<string, number>>>({});
  const battery = useLowBattery();
  const shown = alerts
    .filter((one) => (one.rig === undefined || one.rig === rig) && (seen[one.id] ?? 0) < one.count)
    .reverse()
    .sort((a, b) => graveness[a.severity] - graveness[b.severity]);
  const said =
    unsent ?? (refused && (refused.code === 'no-answer' ? words.noAnswer : `${refused.words} ${refused.next}`));
  return (
    <div className="floor-notices">
      <div role="alert">
        {link === 'lost' && (
          <Notice
            severity="alarm"
            title={words.link.lost}
            text={words.link.lostText}
            act={words.link.retry}
            onAct={onRetry}
          />
        )}
        {link === 'other-version' && (
          <Notice
            severity="alarm"
            title={words.link.other}
            text={words.link.otherText}
            act={words.link.reload}
            onAct={() => location.reload()}
          />
        )}
        {said !== undefined && said !== '' && (
          <Notice severity="warning" text={said} act={words.dismiss} onAct={onDismiss} />
        )}
      </div>
      <div role="status">
        {shown.slice(0, mostShown).map(({ id, severity, words: text, next, count }) => (
          <Notice
            key={id}
            severity={severity}
            title={words.alert[severity]}
            text={`${text} ${next}`}
            act={words.seen}
            onAct={() => setSeen({ ...seen, [id]: count })}
          />
        ))}
        {shown.length > mostShown && <p className="small soft">{words.moreAlerts(shown.length - mostShown)}</p>}
        {behind !== undefined && (
          <Notice severity="note" text={words.behind(behind.skipped)} act={words.seen} onAct={onSeenBehind} />
        )}
        {battery !== undefined && <Notice severity="warning" text={words.lowBattery(numberText(100 * battery, 0))} />}
      </div>
    </div>
  );
}

interface NoticeProps {
  readonly severity: 'alarm' | 'warning' | 'note';
  readonly title?: string;
  readonly text: string;
  readonly act?: string;
  readonly onAct?: () => void;
}

function Notice({ severity, title, text, act, onAct }: NoticeProps) {
  return (
    <p className="notice" data-severity={severity}>
      <span>
        {title !== undefined && <b>{title}. </b>}
        {text}
      </span>
      {act !== undefined && (
        <button type="button" className="button" onClick={onAct}>
          {act}
        </button>
      )}
    </p>
  );
}
