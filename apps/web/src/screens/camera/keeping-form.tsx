import { type LabId, type VideoSettings, videoRoutes } from '@sthene/contract';
import { useId, useState } from 'react';
import { useMay } from '../../data/access.ts';
import { useKeepVideoSettings, useVideoSettings } from '../../data/videos.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { videoWords } from '../../words/video.ts';

const words = videoWords.settings;

/** What the lab does with films: how long they are kept, and whether minors are filmed. Folded away: it is decided once. */
export function KeepingForm({ lab }: { lab: LabId }) {
  const settings = useVideoSettings(lab);
  const may = useMay();
  return (
    <details className="camera-keeping">
      <summary>{words.title}</summary>
      {settings.isError && <ProblemCard error={settings.error} onRetry={() => void settings.refetch()} />}
      {settings.data &&
        (may(videoRoutes.changeVideoSettings) ? (
          <Fields lab={lab} settings={settings.data} />
        ) : (
          <Rules settings={settings.data} />
        ))}
    </details>
  );
}

/** The rules for a device that may not change them. */
function Rules({ settings: { keepDays, minors } }: { settings: VideoSettings }) {
  return (
    <>
      <p>{words.kept(keepDays)}</p>
      <p>{words.minorsNow[minors]}</p>
      <p className="small soft">{words.elsewhere}</p>
    </>
  );
}

function Fields({ lab, settings }: { lab: LabId; settings: VideoSettings }) {
  const [days, setDays] = useState(settings.keepDays?.toString() ?? '');
  const [minors, setMinors] = useState(settings.minors);
  const keep = useKeepVideoSettings(lab);
  const by = useSigned();
  const ids = { days: useId(), help: useId() };
  const wrong = days.trim() !== '' && !(/^\d{1,4}$/.test(days.trim()) && +days >= 1 && +days <= 3650);
  return (
    <>
      <SignFirst />
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (wrong || by === '') return;
          keep.mutate({ minors, by, ...(days.trim() === '' ? {} : { keepDays: Number(days) }) });
        }}
      >
        <label htmlFor={ids.days}>{words.days}</label>
        <input
          id={ids.days}
          inputMode="numeric"
          value={days}
          aria-describedby={ids.help}
          aria-invalid={wrong}
          onChange={(event) => setDays(event.target.value)}
        />
        <p id={ids.help} className="small soft">
          {wrong ? words.badDays : words.forever}
        </p>
        <fieldset>
          <legend>{words.minors}</legend>
          {(['with-consent', 'never'] as const).map((one) => (
            <label key={one} className="menu-choice">
              <input type="radio" name="minors" checked={minors === one} onChange={() => setMinors(one)} />
              {one === 'never' ? words.never : words.withConsent}
            </label>
          ))}
        </fieldset>
        <button type="submit" className="button" disabled={wrong || by === '' || keep.isPending}>
          {words.save}
        </button>
        <p role="status" className="small">
          {keep.isSuccess ? words.saved : ''}
        </p>
        {keep.isError && <ProblemCard error={keep.error} />}
      </form>
    </>
  );
}
