import { useQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import { plainModel } from '../../curve/plain-model.ts';
import { numberText, quantityText } from '../../number/format.ts';
import { PaperCurve } from '../../parts/paper-curve.tsx';
import { importWords } from '../../words/importing.ts';
import { trialEvidence } from '../trial/evidence.ts';
import { effortView } from '../trial/fits.ts';
import { type Draft, fitsTest, inputsOf } from './draft.ts';
import type { Item } from './state.ts';
import type { Import } from './use-import.ts';

interface CurvePreviewProps {
  readonly imported: Import;
  readonly item: Item;
  readonly draft: Draft;
  readonly label?: string;
  /** A dry run's result, whose evidence is drawn on the curve. */
  readonly result?: Parameters<typeof trialEvidence>[0] | undefined;
}

/** The forces of a file as the import would use them, on paper; computed from the file in the browser. */
export function CurvePreview({ imported, item, draft, label = '', result }: CurvePreviewProps) {
  const t = importWords.preview;
  const sources = item.look?.recording?.sources ?? [];
  const inputs = inputsOf(draft, sources);
  // A torque cannot be shown as newtons; while the test is not chosen yet, it is shown in its own unit.
  const test = inputs.ok && !fitsTest(inputs.value, sources, draft.test) ? 'isometric-effort' : draft.test;
  const curve = useQuery({
    queryKey: ['preview', item.key, draft.reading, inputs, test, label],
    enabled: inputs.ok && imported.preview !== undefined,
    queryFn: async () => {
      if (!inputs.ok || !imported.preview) throw new Error('nothing to draw');
      return imported.preview.curve({ file: item.file, reading: draft.reading, inputs: inputs.value, test, label });
    },
    placeholderData: (before) => before,
    structuralSharing: false,
    gcTime: 30_000,
    staleTime: Number.POSITIVE_INFINITY,
  });
  const answer = inputs.ok ? curve.data : undefined;
  const drawn = useMemo(() => {
    if (!answer?.ok) return undefined;
    const { curve: forces } = answer;
    const fits = result && result.span.end <= forces.samples;
    const model = plainModel(forces, fits ? trialEvidence(result, forces.unit, false) : undefined);
    return {
      model,
      ...(fits && (result.events ?? result.jump) ? { view: effortView(model, result) } : {}),
      summary: t.summary(
        item.file.name,
        numberText(forces.samples / forces.sampleRate, 1),
        quantityText(highest(forces.total), forces.unit, { sampleRate: forces.sampleRate, noise: 1 }),
      ),
    };
  }, [answer, result, item.file.name, t]);
  return (
    <section className="curve-preview" aria-label={t.curve}>
      <h2>{t.curve}</h2>
      {drawn ? (
        <PaperCurve model={drawn.model} summary={drawn.summary} {...(drawn.view ? { view: drawn.view } : {})} />
      ) : (
        <p className="curve-none soft">
          {answer && !answer.ok ? answer.message : inputs.ok && !curve.isError ? t.drawing : t.noCurve}
        </p>
      )}
    </section>
  );
}

function highest(values: Float64Array): number {
  let high = Number.NEGATIVE_INFINITY;
  for (const value of values) if (value > high) high = value;
  return Number.isFinite(high) ? high : 0;
}
