import { createHash } from 'node:crypto';
import { pdfOf } from '../src/index.ts';
import { page } from './documents.ts';

/** Run by a test in a process of its own. */
process.stdout.write(
  createHash('sha256')
    .update(await pdfOf(page(), 'A4'))
    .digest('hex'),
);
