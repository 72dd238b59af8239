import { useEffect, useRef, useState } from 'react';
import { importWords } from '../../words/importing.ts';

/** Takes files dropped anywhere on the page, or chosen with the button. */
export function DropZone({ small, onFiles }: { small: boolean; onFiles: (files: readonly File[]) => void }) {
  const t = importWords.drop;
  const input = useRef<HTMLInputElement>(null);
  const [over, setOver] = useState(false);
  const take = useRef(onFiles);
  take.current = onFiles;
  useEffect(() => {
    let depth = 0;
    const carriesFiles = (event: DragEvent) => event.dataTransfer?.types.includes('Files') === true;
    const enter = (event: DragEvent) => {
      if (!carriesFiles(event)) return;
      depth += 1;
      setOver(true);
    };
    const leave = (event: DragEvent) => {
      if (!carriesFiles(event)) return;
      depth = Math.max(0, depth - 1);
      if (depth === 0) setOver(false);
    };
    // Without this the browser would open the file in place of the page.
    const hold = (event: DragEvent) => event.preventDefault();
    const drop = (event: DragEvent) => {
      event.preventDefault();
      depth = 0;
      setOver(false);
      const files = [...(event.dataTransfer?.files ?? [])];
      if (files.length > 0) take.current(files);
    };
    addEventListener('dragenter', enter);
    addEventListener('dragleave', leave);
    addEventListener('dragover', hold);
    addEventListener('drop', drop);
    return () => {
      removeEventListener('dragenter', enter);
      removeEventListener('dragleave', leave);
      removeEventListener('dragover', hold);
      removeEventListener('drop', drop);
    };
  }, []);
  return (
    <div className="drop" data-over={over} data-small={small}>
      <p className="drop-title">{over ? t.release : small ? t.more : t.title}</p>
      {!small && <p className="soft">{t.kinds}</p>}
      <button type="button" className={small ? 'button' : 'button main'} onClick={() => input.current?.click()}>
        {t.choose}
      </button>
      {!small && <p className="small soft">{t.own}</p>}
      <input
        ref={input}
        type="file"
        multiple
        hidden
        aria-label={t.choose}
        onChange={(event) => {
          const files = [...(event.target.files ?? [])];
          event.target.value = '';
          if (files.length > 0) onFiles(files);
        }}
      />
    </div>
  );
}
