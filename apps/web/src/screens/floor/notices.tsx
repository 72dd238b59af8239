import type { LiveState } from '../../live/index.ts';
import { liveWords as words } from '../../words/live.ts';

export interface NoticesProps {
  readonly state: LiveState;
  readonly rig: string;
  readonly unsent: string | undefined;
  readonly onRetry: () => void;
  readonly onDismiss: () => void;
}

/** What is not as it should be, most urgent first: no link, alarms, and what was not done. */
export function Notices({ state, rig, unsent, onRetry, onDismiss }: NoticesProps) {
  const { link, alerts, refused } = state;
  const shown = alerts.filter((one) => one.rig === undefined || one.rig === rig);
  const said =
    unsent ?? (refused && (refused.code === 'no-answer' ? words.noAnswer : `${refused.words} ${refused.next}`));
  return (
    <div className="floor-notices">
      <div role="alert">
        {link === 'lost' && (
          <p className="notice" data-severity="alarm">
            <span>
              <b>{words.link.lost}.</b> {words.link.lostText}
            </span>
            <button type="button" className="button" onClick={onRetry}>
              {words.link.retry}
            </button>
          </p>
        )}
        {link === 'other-version' && (
          <p className="notice" data-severity="alarm">
            <span>
              <b>{words.link.other}.</b> {words.link.otherText}
            </span>
            <button type="button" className="button" onClick={() => location.reload()}>
              {words.link.reload}
            </button>
          </p>
        )}
        {said !== undefined && said !== '' && (
          <p className="notice" data-severity="warning">
            <span>{said}</span>
            <button type="button" className="button" onClick={onDismiss}>
              {words.dismiss}
            </button>
          </p>
        )}
      </div>
      <div role="status">
        {shown.slice(-2).map((one) => (
          <p key={one.id} className="notice" data-severity={one.severity}>
            <span>
              <b>{words.alert[one.severity]}.</b> {one.words} {one.next}
            </span>
          </p>
        ))}
      </div>
    </div>
  );
}
