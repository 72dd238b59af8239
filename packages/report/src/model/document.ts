import type { Figure } from './figure.ts';
import type { Logo } from './logo.ts';
import type { Table } from './table.ts';

/** Languages of the message catalogue. */
export const languages = ['en', 'de'] as const;
export type Language = (typeof languages)[number];

/** A fact by its name: short, as people read it. */
export interface Fact {
  readonly name: string;
  readonly value: string;
  readonly note?: string;
}

/** A piece of a report. Text is in the language of the report unless `language` says that it was left as it was written. */
export type Block =
  | { readonly kind: 'heading'; readonly text: string }
  | {
      readonly kind: 'paragraph';
      readonly text: string;
      readonly style?: 'lead' | 'plain' | 'small';
      readonly language?: string;
    }
  /** The one word of the page with its number; it leads the eye. */
  | { readonly kind: 'statement'; readonly mark: string; readonly word: string; readonly value: string }
  | { readonly kind: 'list'; readonly items: readonly string[]; readonly ordered: boolean; readonly language?: string }
  /** A frame of its own: cautions, the words of a cue. */
  | { readonly kind: 'notice'; readonly title: string; readonly items: readonly string[] }
  | { readonly kind: 'facts'; readonly items: readonly Fact[] }
  | { readonly kind: 'figure'; readonly figure: Figure }
  | { readonly kind: 'table'; readonly table: Table }
  /** Side by side, read from left to right; never parted by a page's end. */
  | { readonly kind: 'columns'; readonly columns: readonly (readonly Block[])[]; readonly shares: readonly number[] };

/** A report as data, before anybody draws it. The same document always gives the same bytes. */
export interface ReportDocument {
  readonly language: Language;
  readonly title: string;
  /** What the title is about: a name, a squad, a session. */
  readonly subject: string;
  readonly lab: { readonly name: string; readonly logo?: Logo };
  /** A line that stands on every page, as of an example with invented people. */
  readonly banner?: string;
  readonly blocks: readonly Block[];
  /** Foot of every page. */
  readonly foot: string;
  /** Newest instant of what is reported, RFC 3339; the date of the file. */
  readonly dated: string;
  /** Set tighter, step by step, until it is one page. */
  readonly onePage: boolean;
  /** Name to offer for the file, without its ending. */
  readonly file: string;
}

/** Every table of a document in its order, those in columns too. */
export const tablesOf = (blocks: readonly Block[]): Table[] =>
  blocks.flatMap((block) =>
    block.kind === 'table' ? [block.table] : block.kind === 'columns' ? block.columns.flatMap(tablesOf) : [],
  );

/** Every figure of a document in its order. */
export const figuresOf = (blocks: readonly Block[]): Figure[] =>
  blocks.flatMap((block) =>
    block.kind === 'figure' ? [block.figure] : block.kind === 'columns' ? block.columns.flatMap(figuresOf) : [],
  );
