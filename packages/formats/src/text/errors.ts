import type { Notice } from '@sthene/core';
import type { FormatError } from '../format-error.ts';

/** Every refusal of the text reader and what a person can do about it. Codes are permanent; docs list the same ones. */
export const textErrors = {
  'text-empty': 'Check that the export finished and the file was copied whole.',
  'text-is-archive': 'Open it with the program that made it and save the sheet as CSV, or unpack it first.',
  'text-not-text': 'Choose the format the file really has, or export it as CSV or tab separated text.',
  'text-no-numbers':
    'Check that the file holds one row of numbers per sample; name delimiter, decimal sign and header row.',
  'text-line-too-long': 'Export one row per sample with line breaks between the rows.',
  'text-too-many-columns': 'Export fewer columns, or turn the table so that each row is one sample.',
  'text-decimal-is-delimiter': 'Export with a decimal point, or with a semicolon or tab between the columns.',
  'text-cell-not-a-number': 'Correct the cell, or name the header row, delimiter and decimal sign.',
  'text-column-unknown': 'Name one of the columns of the file, or give its number counted from 1.',
  'text-option-invalid': 'Correct the option.',
  'text-rate-missing': 'Give the sample rate in hertz, or name the time column.',
  'text-time-not-increasing': 'Name the right time column, or read without one by giving the rate.',
  'text-too-large': 'Read it block by block (scan), or choose fewer columns.',
} as const satisfies Record<string, string>;

export type TextErrorCode = keyof typeof textErrors;

/** Everything the text reader may tell about a file it could still use. Codes are permanent; docs list the same ones. */
export const textNotices = [
  'text-cell-not-a-number',
  'text-column-ignored',
  'text-encoding-latin-1',
  'text-facts-cut',
  'text-file-shrank',
  'text-layout-trials',
  'text-line-too-long',
  'text-long-rows',
  'text-missing-cells',
  'text-short-rows',
  'text-time-backward',
  'text-time-coarse',
  'text-time-leap',
  'text-time-missing',
  'text-time-repeated',
  'text-time-skips',
  'text-time-uneven',
  'text-time-unit-guessed',
  'text-unit-unknown',
] as const;

export type TextNoticeCode = (typeof textNotices)[number];

/** An error of the text format with its standing next step. */
export function textError(
  code: TextErrorCode,
  message: string,
  more: Pick<FormatError, 'expected' | 'found' | 'at'> = {},
): FormatError {
  return { code, message, next: textErrors[code], ...more };
}

/** A notice of the text format. */
export const textNotice = (code: TextNoticeCode, message: string): Notice => ({ code, message });

/** Foreign text in a message: short and free of control characters. */
export function quoteFound(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what must not reach a message
  const plain = text.replace(/[\u0000-\u001f\u007f]/g, ' ');
  return plain.length > 40 ? `${plain.slice(0, 40)}...` : plain;
}
