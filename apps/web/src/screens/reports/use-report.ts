import {
  athleteChange,
  type ReportKind,
  type ReportLanguage,
  type ReportPaper,
  type ReportQuery,
  reportKind,
  reportLanguage,
  reportPaper,
  reportQuery,
} from '@sthene/contract';
import { useSearchParams } from 'react-router';
import { pushOffEntry } from '../battery/push-off.ts';

/** What is asked for by each kind, besides language and paper. */
const fieldsOf = {
  athlete: ['person', 'test', 'metric', 'against'],
  battery: ['person', 'on', 'apart', 'pushOff'],
  squad: ['squad', 'test', 'metric'],
  session: ['session'],
  reliability: ['squad', 'test', 'metric', 'sessions'],
  methods: ['protocol', 'metric', 'method'],
  protocol: ['protocol'],
  plates: ['rig', 'check'],
} as const satisfies Record<ReportKind, readonly (keyof ReportQuery)[]>;

export type ReportField = (typeof fieldsOf)[ReportKind][number];

/** Whether a kind needs something to be chosen before there is anything to show. */
export const neededOf = (kind: ReportKind): 'person' | 'session' | 'protocol' | 'rig' | undefined =>
  kind === 'athlete' || kind === 'battery'
    ? 'person'
    : kind === 'plates'
      ? 'rig'
      : kind === 'session' || kind === 'protocol'
        ? kind
        : undefined;

export interface ReportChoice {
  readonly kind: ReportKind;
  readonly values: Readonly<Partial<Record<ReportField, string>>>;
  readonly language: ReportLanguage | undefined;
  readonly paper: ReportPaper | undefined;
  readonly has: (field: ReportField) => boolean;
  readonly choose: (key: ReportField | 'kind' | 'language' | 'paper', value: string) => void;
}

/** What is made, kept in the address, so that a page of an athlete or a session can lead here. */
export function useReport(): ReportChoice {
  const [search, setSearch] = useSearchParams();
  const kind = reportKind.catch('athlete').parse(search.get('kind'));
  const fields: readonly ReportField[] = fieldsOf[kind];
  const values = Object.fromEntries(fields.flatMap((field) => (search.get(field) ? [[field, search.get(field)]] : [])));
  return {
    kind,
    values,
    language: reportLanguage.safeParse(search.get('language')).data,
    paper: reportPaper.safeParse(search.get('paper')).data,
    has: (field) => fields.includes(field),
    choose: (key, value) =>
      setSearch(
        (now) => {
          const next = new URLSearchParams(now);
          if (value === '') next.delete(key);
          else next.set(key, value);
          return next;
        },
        { replace: true },
      ),
  };
}

/** The choice as the station is asked. A number that is none and a word that nobody knows are left out. */
export function queryOf({ values, language }: Pick<ReportChoice, 'values' | 'language'>): ReportQuery {
  const { against, sessions, on, apart, pushOff, ...texts } = values;
  const reference = athleteChange.shape.reference.safeParse(against);
  const count = Number(sessions);
  return {
    ...texts,
    ...(reference.success ? { against: reference.data } : {}),
    ...(Number.isInteger(count) && count >= 2 && count <= 20 ? { sessions: count } : {}),
    ...(reportQuery.shape.on.safeParse(on).success && on !== undefined ? { on } : {}),
    ...(apart === undefined ? {} : apartIn(apart)),
    ...pushOffIn(pushOff ?? ''),
    ...(language === undefined ? {} : { language }),
  };
}

function apartIn(text: string): Pick<ReportQuery, 'apart'> {
  const found = reportQuery.shape.apart.safeParse(text);
  return found.success ? { apart: found.data } : {};
}

/** As its field reads it, with a point or a comma; the field also says where it is none. */
function pushOffIn(text: string): Pick<ReportQuery, 'pushOff'> {
  const entry = pushOffEntry(text);
  return entry.ok && entry.value !== '' ? { pushOff: Number(entry.value) } : {};
}
