import type { LabId, RigTrouble, RigView } from '@sthene/contract';
import { useMutation } from '@tanstack/react-query';
import { troubleRig } from '../../data/rigs.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { rigWords } from '../../words/rig.ts';

const troubles = Object.keys(rigWords.trouble.acts) as RigTrouble[];

/** Lets something go wrong on virtual plates, and says where it will be seen. Marked as a demonstration. */
export function TroublePart({ lab, rig }: { lab: LabId; rig: RigView }) {
  const t = rigWords.trouble;
  const by = useSigned();
  const say = useSay();
  const cause = useMutation({
    mutationFn: (trouble: RigTrouble) => troubleRig(lab, rig.id, trouble, by),
  });
  return (
    <section className="panel" aria-labelledby="trouble">
      <h2 id="trouble">
        {t.title} <span className="example-mark">{t.mark}</span>
      </h2>
      <p className="small soft">{t.help}</p>
      <div className="acts">
        {troubles.map((trouble) => (
          <button
            key={trouble}
            type="button"
            className="button"
            disabled={cause.isPending}
            onClick={() => (by ? cause.mutate(trouble) : say(dayWords.sign.needed))}
          >
            {t.acts[trouble]}
          </button>
        ))}
      </div>
      {cause.isSuccess && (
        <p role="status">
          {t.begun(t.acts[cause.data.trouble])} {t.look[cause.data.trouble]}
        </p>
      )}
      {cause.isError && <ProblemCard error={cause.error} />}
    </section>
  );
}
