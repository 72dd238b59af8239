import {
  type LabId,
  type PersonDecision,
  type ReceivedPerson,
  type ReceivedRequest,
  type ResultsMappingBody,
  type TablePreview,
  type TableQuestion,
  unknownMethod,
} from '@sthene/contract';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useEffect, useMemo, useState } from 'react';
import { dryRunQuery, tableQuery } from '../../data/received.ts';

/** What was decided of somebody: `` for nothing yet, `new`, `skip`, or the id of an athlete. */
export type Decided = Readonly<Record<string, string>>;

/** What a person says of a table besides its columns. */
export interface Answers {
  readonly known: boolean | undefined;
  readonly label: string;
  readonly test: string;
  readonly onDuplicate: 'skip' | 'keep';
  readonly remember: string;
}

const noAnswers: Answers = { known: undefined, label: '', test: '', onDuplicate: 'skip', remember: '' };

/** Everything of an import of results under way; nothing is stored before it is asked for. */
export function useResults(lab: LabId, upload: string) {
  const [question, setQuestion] = useState<TableQuestion>({ upload });
  const preview = useQuery(tableQuery(lab, question));
  const [changed, setChanged] = useState<{ of: TablePreview; mapping: ResultsMappingBody }>();
  const [answers, setAnswers] = useState(noAnswers);
  const [decided, setDecided] = useState<Decided>({});
  const [answered, setAnswered] = useState<readonly string[]>([]);
  const { data } = preview;
  // Another sheet, or another row of headings, is another table: what was chosen for the one before does not hold.
  const mapping = data && (changed?.of === data ? changed.mapping : data.mapping);
  const open = (data?.questions ?? []).filter((one) => !answered.includes(one));
  const has = (as: string) => mapping?.columns.some((one) => one.as === as) ?? false;
  const ready =
    data !== undefined &&
    (data.kind === 'exchange' ||
      (has('date') &&
        (has('values') || (has('value') && has('metric'))) &&
        ['code', 'name', 'given-name', 'family-name'].some(has)));
  const needsLabel = data?.kind === 'table' && !has('method');
  const needsTest = data?.kind === 'table' && !has('test');
  const label = answers.known === false ? unknownMethod : answers.label.trim();
  const labelled = !needsLabel || (answers.known !== undefined && label !== '');
  const tested = !needsTest || answers.test !== '';

  // Tried out under a label and a test of no consequence until they are chosen: people and cells do not depend on them.
  const draft = useMemo((): ReceivedRequest | undefined => {
    if (!ready || mapping === undefined || data === undefined) return undefined;
    return {
      upload,
      ...(data.kind === 'table' ? { mapping } : {}),
      ...(needsTest ? { test: answers.test || 'imtp' } : {}),
      ...(needsLabel ? { methodLabel: labelled ? label : unknownMethod } : {}),
      people: [],
      onDuplicate: answers.onDuplicate,
      by: 'somebody',
    };
  }, [ready, mapping, data, upload, needsTest, answers.test, needsLabel, labelled, label, answers.onDuplicate]);
  const settled = useSettled(draft, 300);
  const seen = useQuery(dryRunQuery(lab, settled));
  const people = seen.data?.people ?? [];
  const request = draft && { ...draft, people: decisionsOf(people, decided) };
  const settledRequest = useSettled(request === undefined ? '' : JSON.stringify(request), 300);
  const dry = useQuery({
    ...dryRunQuery(lab, settledRequest === '' ? undefined : (JSON.parse(settledRequest) as ReceivedRequest)),
    enabled: settledRequest !== '' && seen.data !== undefined,
    placeholderData: keepPreviousData,
  });
  return {
    preview,
    mapping,
    change: (next: ResultsMappingBody) => data && setChanged({ of: data, mapping: next }),
    ask: (next: Partial<TableQuestion>) => setQuestion({ ...question, ...next }),
    question,
    open,
    answer: (what: string) => setAnswered([...answered, what]),
    answers,
    setAnswers: (part: Partial<Answers>) => setAnswers({ ...answers, ...part }),
    ...{ ready, needsLabel, needsTest, labelled, tested },
    people,
    decided,
    decide: (part: Decided) => setDecided({ ...decided, ...part }),
    dry: dry.data ?? seen.data,
    dryError: dry.error ?? seen.error,
    checking: seen.isFetching || dry.isFetching || request === undefined || JSON.stringify(request) !== settledRequest,
    request,
  };
}

export type Results = ReturnType<typeof useResults>;

function decisionsOf(people: readonly ReceivedPerson[], decided: Decided): PersonDecision[] {
  return people.flatMap(({ key, draft }): PersonDecision[] => {
    const one = decided[key] ?? '';
    if (one === '') return [];
    return one === 'skip' ? [{ key, skip: true }] : one === 'new' ? [{ key, create: draft }] : [{ key, id: one }];
  });
}

/** A value once it has not changed for a moment. */
function useSettled<T>(value: T, wait: number): T {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(value), wait);
    return () => clearTimeout(timer);
  }, [value, wait]);
  return settled;
}
