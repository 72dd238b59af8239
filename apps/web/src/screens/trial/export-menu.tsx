import { addressOf, routes } from '@sthene/contract';
import { useState } from 'react';
import type { CurveModel } from '../../curve/model.ts';
import { usePreference } from '../../data/use-preference.ts';
import { Icon } from '../../parts/icon.tsx';
import { Menu } from '../../parts/menu.tsx';
import { useSay } from '../../parts/status.tsx';
import { words } from '../../words/index.ts';
import { copyTable } from './copy-table.ts';
import { curveFile, pngFile, svgFile, valuesFile } from './exports.ts';
import { saveFile } from './save-file.ts';
import { useShared } from './trial-context.ts';
import type { Overlays } from './use-overlays.ts';

/** Widths offered for pictures, mm: one column, one and a half, two columns of a journal page. */
const widths = [85, 130, 174];

/** Figure, data of the figure, and values, to take away. */
export function ExportMenu({ model, overlays }: { model: CurveModel; overlays: Overlays }) {
  const { view, lab, controller } = useShared();
  const [named, setNamed] = useState(view.person.code === '');
  const [width, setWidth] = usePreference('png-width');
  const say = useSay();
  const t = words.exportMenu;
  const subject = { view, lab, model, controller, named, overlays: overlays.loaded };
  const attempt = async (work: () => Promise<void> | void, close: () => void) => {
    close();
    try {
      await work();
    } catch {
      say(t.fails);
    }
  };
  return (
    <Menu
      label={words.trial.export}
      face={
        <>
          <Icon name="out" size={17} /> {words.trial.export}
        </>
      }
      className="button"
      align="end"
    >
      {(close) => (
        <>
          <p className="menu-title">{t.figure}</p>
          <div className="menu-list">
            <button type="button" onClick={() => void attempt(() => saveFile(svgFile(subject)), close)}>
              {t.svg}
            </button>
            {widths.map((mm) => (
              <button
                key={mm}
                type="button"
                aria-current={String(mm) === width || undefined}
                onClick={() => {
                  setWidth(String(mm));
                  void attempt(async () => saveFile(await pngFile(subject, mm)), close);
                }}
              >
                {t.png(String(mm))}
              </button>
            ))}
          </div>
          {view.person.code !== '' && (
            <label className="menu-choice small">
              <input type="checkbox" checked={named} onChange={(event) => setNamed(event.target.checked)} />
              {t.named}
            </label>
          )}
          <p className="menu-title">{t.data}</p>
          <div className="menu-list">
            <button type="button" onClick={() => void attempt(() => saveFile(curveFile(subject)), close)}>
              {t.csv}
            </button>
            <a
              href={addressOf(routes.recordingFile, { lab, id: view.recording.sha256 })}
              download={view.recording.fileName}
            >
              {t.raw}
            </a>
          </div>
          <p className="menu-title">{t.values}</p>
          <div className="menu-list">
            <button type="button" onClick={() => void attempt(() => saveFile(valuesFile(subject)), close)}>
              {t.valuesCsv}
            </button>
            <button
              type="button"
              onClick={() => void attempt(() => copyTable(view).then(() => say(words.values.copied)), close)}
            >
              {t.copy}
            </button>
            <button type="button" onClick={() => void attempt(() => print(), close)}>
              {words.trial.print}
            </button>
          </div>
        </>
      )}
    </Menu>
  );
}
