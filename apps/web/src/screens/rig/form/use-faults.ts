import type { LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useEffect, useMemo, useState } from 'react';
import { sourceCheckQuery } from '../../../data/rigs.ts';
import { type Fault, type Looked, lookAt } from './faults.ts';
import type { SourceForm } from './source-form.ts';
import { documentOf } from './to-document.ts';

const pause = 500;

/** Faults of a form: at once those of its own, and, when there are none and the hand rests, those the station finds. */
export function useFaults(lab: LabId, form: SourceForm): { looked: Looked; faults: readonly Fault[] } {
  const document = useMemo(() => documentOf(form), [form]);
  const looked = useMemo(() => lookAt(document), [document]);
  const [rested, setRested] = useState<unknown>();
  useEffect(() => {
    const timer = setTimeout(() => setRested(document), pause);
    return () => clearTimeout(timer);
  }, [document]);
  const check = useQuery({
    ...sourceCheckQuery(lab, rested),
    enabled: looked.ok && rested === document,
    retry: false,
  });
  if (!looked.ok) return { looked, faults: looked.faults };
  const found = rested === document && check.data && !check.data.ok ? check.data.faults : [];
  return { looked, faults: found.map(({ path, words, next }) => ({ path, words: `${words} ${next}`.trim() })) };
}
