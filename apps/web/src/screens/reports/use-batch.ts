import type { LabId, Person, ReportFileQuery } from '@sthene/contract';
import { zipSync } from 'fflate';
import { useEffect, useRef, useState } from 'react';
import { reportBytes } from '../../data/reports.ts';
import { problemOf } from '../../data/station.ts';
import { dayText } from '../../number/when.ts';

export interface FailedPage {
  readonly name: string;
  readonly detail: string;
  readonly code: string;
}

export interface Batch {
  readonly state: 'idle' | 'running' | 'done' | 'stopped';
  readonly total: number;
  /** Athletes dealt with, with or without a page. */
  readonly done: number;
  /** Who is being made. */
  readonly now: string;
  readonly pages: ReadonlyMap<string, Uint8Array<ArrayBuffer>>;
  readonly failed: readonly FailedPage[];
}

const idle: Batch = { state: 'idle', total: 0, done: 0, now: '', pages: new Map(), failed: [] };

const nameOf = ({ givenName, familyName }: Person): string => `${givenName} ${familyName}`.trim();

/** A page for each of some athletes, one after the other. One without a page takes no other page away; leaving the screen stops it. */
export function useBatch(lab: LabId) {
  const [batch, setBatch] = useState(idle);
  const run = useRef(0);
  useEffect(
    () => () => {
      run.current++;
    },
    [],
  );
  const stop = () => {
    run.current++;
    setBatch((now) => ({ ...now, state: 'stopped' }));
  };
  const start = async (people: readonly Person[], query: Partial<ReportFileQuery>) => {
    const own = ++run.current;
    const pages = new Map<string, Uint8Array<ArrayBuffer>>();
    const failed: FailedPage[] = [];
    const tell = (state: Batch['state'], done: number, now: string) =>
      setBatch({ state, total: people.length, done, now, pages: new Map(pages), failed: [...failed] });
    for (const [i, person] of people.entries()) {
      tell('running', i, nameOf(person));
      try {
        const bytes = await reportBytes(lab, 'athlete', { ...query, person: person.id, as: 'pdf' });
        if (own !== run.current) return;
        pages.set(fileOf(person), new Uint8Array(bytes));
      } catch (error) {
        if (own !== run.current) return;
        const { detail, code } = problemOf(error);
        failed.push({ name: nameOf(person), detail, code });
      }
    }
    tell('done', people.length, '');
  };
  return { batch, start, stop };
}

/** Codes are unique in a lab; signs that a file system may not like become dashes. */
const fileOf = ({ code, givenName, familyName }: Person): string =>
  `${[code, familyName, givenName].map((one) => one.replace(/[^\p{L}\p{N}]+/gu, '-')).join('-')}.pdf`;

/** The pages in one file. PDFs are packed already, so they are only put together. */
export const zipOf = (pages: Batch['pages']): { readonly name: string; readonly content: Blob } => ({
  name: `pages-${dayText(new Date().toISOString())}.zip`,
  content: new Blob([zipSync(Object.fromEntries(pages), { level: 0 }) as Uint8Array<ArrayBuffer>], {
    type: 'application/zip',
  }),
});
