import type { VideoView } from '@sthene/contract';
import { useId, useState } from 'react';
import type { useVideoAct } from '../../data/videos.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { videoWords } from '../../words/video.ts';

const words = videoWords.panel;

/** Asks for the reason before a film is gone for good. */
export function FilmRemove({
  film,
  act,
  onClose,
}: {
  film: VideoView;
  act: ReturnType<typeof useVideoAct>;
  onClose: () => void;
}) {
  const [reason, setReason] = useState('');
  const by = useSigned();
  const id = useId();
  return (
    <Dialog title={words.remove} onClose={onClose}>
      <div className="dialog-form">
        <p className="soft">{words.removeHelp}</p>
        <SignFirst />
        <label htmlFor={id}>{words.reason}</label>
        <textarea id={id} value={reason} maxLength={400} onChange={(event) => setReason(event.target.value)} />
        {act.isError && <ProblemCard error={act.error} />}
        <div className="dialog-acts">
          <button
            type="button"
            className="button main"
            disabled={reason.trim() === '' || by === '' || act.isPending}
            onClick={() => act.mutate({ kind: 'drop', id: film.id, reason: reason.trim(), by }, { onSuccess: onClose })}
          >
            {words.yes}
          </button>
          <button type="button" className="button" onClick={onClose}>
            {words.no}
          </button>
        </div>
      </div>
    </Dialog>
  );
}
