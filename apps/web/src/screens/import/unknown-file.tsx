import { useSay } from '../../parts/status.tsx';
import { importWords } from '../../words/importing.ts';
import { words } from '../../words/index.ts';
import { Answers } from './answers.tsx';
import type { Look } from './worker/messages.ts';

/** A file nobody knows: what each format missed, and the next step. */
export function UnknownFile({ file, look }: { file: File; look: Look }) {
  const t = importWords.file;
  const say = useSay();
  return (
    <div className="file-trouble">
      <p>
        <b>{t.unknownTitle}.</b> {t.unknownNext}
      </p>
      <Answers answers={look.answers} open />
      <p className="small soft">
        {words.problem.code} <span className="number">format-not-recognised</span>
      </p>
      <button
        type="button"
        className="button"
        onClick={() =>
          void navigator.clipboard.writeText(described(file, look)).then(
            () => say(t.described),
            () => {},
          )
        }
      >
        {t.describe}
      </button>
    </div>
  );
}

/** What helps somebody else to see why: name, size, each format's reason, the first bytes. */
function described(file: File, look: Look): string {
  const reasons = look.answers.map(({ title, match, reason, at }) => {
    const place = at?.row !== undefined ? ` (row ${at.row})` : at?.byte !== undefined ? ` (byte ${at.byte})` : '';
    return `${title}: ${match}. ${reason}${place}`;
  });
  return [`${file.name}, ${file.size} bytes`, ...reasons, `first bytes: ${look.firstBytes}`].join('\n');
}
