import { call, type FloorSettings, type LabId, liveRoutes, videoRoutes } from '@sthene/contract';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useId } from 'react';
import { Link } from 'react-router';
import { useMay } from '../../data/access.ts';
import type { PreferenceName } from '../../data/preferences.ts';
import { base, fetcher } from '../../data/station.ts';
import { usePreference } from '../../data/use-preference.ts';
import { offlineVoice } from '../../live/index.ts';
import { Menu } from '../../parts/menu.tsx';
import { liveWords as words } from '../../words/live.ts';
import { videoWords } from '../../words/video.ts';
import { floorSigner } from './use-entry-acts.ts';

/** A switch kept in this browser. */
export function useSwitch(name: PreferenceName, usual: boolean): [boolean, (on: boolean) => void] {
  const [value, keep] = usePreference(name);
  return [value === undefined ? usual : value === 'on', (on) => keep(on ? 'on' : 'off')];
}

/** Tone, voice, flash and keys of this screen, whose body weight the lab lets it show, and whether it films. `camera` is the page on which another device films. */
export function ScreenSettings({ lab, camera, onKeys }: { lab: LabId; camera: string; onKeys: () => void }) {
  const { settings } = words;
  const may = useMay();
  return (
    <Menu label={settings.title} face={settings.title} align="end" className="button">
      {(close) => (
        <div className="menu-form">
          <fieldset>
            <legend>{settings.cue}</legend>
            <Switch name="cue-sound" usual words={settings.sound} />
            <Switch name="cue-voice" words={settings.voice} />
            {offlineVoice() === undefined && <p className="small soft">{settings.noVoice}</p>}
            <Switch name="cue-flash" usual words={settings.flash} />
          </fieldset>
          <fieldset>
            <legend>{settings.weightTitle}</legend>
            <WeightRule lab={lab} />
            <Switch name="show-weight" words={settings.weight} />
          </fieldset>
          {may(videoRoutes.beginVideo) && (
            <fieldset>
              <legend>{videoWords.floor.title}</legend>
              <Switch name="film-here" words={videoWords.floor.record} />
              <Link className="menu-choice" to={camera}>
                {videoWords.floor.camera}
              </Link>
            </fieldset>
          )}
          <button
            type="button"
            className="button"
            onClick={() => {
              close();
              onKeys();
            }}
          >
            {settings.keys}
          </button>
        </div>
      )}
    </Menu>
  );
}

/** The lab's own decision, for every device; what it does not allow never leaves the station. */
function WeightRule({ lab }: { lab: LabId }) {
  const { settings } = words;
  const id = useId();
  const client = useQueryClient();
  const decides = useMay()(liveRoutes.changeFloorSettings);
  const queryKey = ['floor-settings', lab];
  const rule = useQuery({
    queryKey,
    queryFn: () => call(fetcher, base, liveRoutes.floorSettings, { params: { lab } }),
  });
  const change = useMutation({
    mutationFn: (bodyWeight: FloorSettings['bodyWeight']) =>
      call(fetcher, base, liveRoutes.changeFloorSettings, { params: { lab }, body: { bodyWeight, by: floorSigner() } }),
    onSuccess: (kept) => client.setQueryData(queryKey, kept),
  });
  return (
    <div className="menu-choice">
      <label htmlFor={id}>{settings.weightOf}</label>
      <select
        id={id}
        value={rule.data?.bodyWeight ?? ''}
        disabled={rule.data === undefined || !decides}
        onChange={(event) => change.mutate(event.target.value as FloorSettings['bodyWeight'])}
      >
        {(['nobody', 'adults', 'everyone'] as const).map((one) => (
          <option key={one} value={one}>
            {settings.weightRule[one]}
          </option>
        ))}
      </select>
      {!decides && <p className="small soft">{settings.weightElsewhere}</p>}
      {change.isError && (
        <p className="field-error small" role="alert">
          {settings.weightRefused}
        </p>
      )}
    </div>
  );
}

function Switch({ name, usual = false, words: text }: { name: PreferenceName; usual?: boolean; words: string }) {
  const [on, keep] = useSwitch(name, usual);
  return (
    <label className="menu-choice">
      <input type="checkbox" checked={on} onChange={(event) => keep(event.target.checked)} />
      {text}
    </label>
  );
}
