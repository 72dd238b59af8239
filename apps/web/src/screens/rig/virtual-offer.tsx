import type { LabId, RigView, StoredSourceView } from '@sthene/contract';
import { useNavigate } from 'react-router';
import { useKeepSource, useRigAct } from '../../data/rigs.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { rigWords } from '../../words/rig.ts';
import { rigCheckWords } from '../../words/rig-check.ts';
import { freeMarks } from './rig-marks.ts';
import { virtualSource } from './virtual-plates.ts';

interface OfferProps {
  readonly lab: LabId;
  readonly rigs: readonly RigView[];
  readonly sources: readonly StoredSourceView[];
}

/** One touch: describes virtual plates, forms a rig of them, opens it and shows it. A second one plays another day. */
export function VirtualPlates({ lab, rigs, sources }: OfferProps) {
  const t = rigWords.virtual;
  const keep = useKeepSource(lab);
  const act = useRigAct(lab);
  const navigate = useNavigate();
  const say = useSay();
  const by = useSigned();
  const first = rigs.length === 0;
  const worn = rigs.some(({ name }) => name === rigCheckWords.worn.rig);
  const run = async (worn = false) => {
    if (!by) return say(dayWords.sign.needed);
    try {
      const { letter, shape } = freeMarks(rigs);
      const wanted = virtualSource(letter, rigs.length + 1, worn);
      const source =
        sources.find(({ name }) => name === wanted.name) ?? (await keep.mutateAsync({ description: wanted, by }));
      const name = worn ? rigCheckWords.worn.rig : first ? t.rig : t.second;
      const draft = { name, letter, shape, sources: [source.id], notes: '' };
      const rig = await act.mutateAsync({ kind: 'keep', draft, by });
      await act.mutateAsync({ kind: 'open', id: rig.id, by });
      say(t.ready);
      await navigate(`/${lab}/rig/${rig.id}`);
    } catch {
      // What went wrong stands in the mutation and is shown below.
    }
  };
  const failed = keep.isError ? keep.error : act.isError ? act.error : undefined;
  return (
    <div className="virtual-offer">
      <button
        type="button"
        className={first ? 'button main' : 'button'}
        disabled={keep.isPending || act.isPending}
        onClick={() => void run()}
      >
        {first ? t.act : t.another}
      </button>
      <p className="small soft">{t.help}</p>
      {!worn && (
        <>
          <button
            type="button"
            className="button quiet"
            disabled={keep.isPending || act.isPending}
            onClick={() => void run(true)}
          >
            {rigCheckWords.worn.act}
          </button>
          <p className="small soft">{rigCheckWords.worn.help}</p>
        </>
      )}
      {failed !== undefined && <ProblemCard error={failed} />}
    </div>
  );
}
