import type { MonotonicNanoseconds } from '@sthene/core';
import type { JournalFilePort } from './file-port.ts';
import { encodeFrame, readFrame } from './frame.ts';
import { capturesIn, sealName } from './names.ts';
import { jsonBytes, jsonObject } from './packet-frames.ts';
import { readCapture } from './read.ts';
import type { CaptureReport } from './report.ts';
import { findHead, scanSegment } from './scan.ts';

/** A capture that ended without being closed. */
export interface Recovered extends CaptureReport {
  /** What happened, what is safe, what is lost; for people. */
  readonly words: string;
  /** The finding is kept on disk beside the capture. False when the disk took nothing; the capture itself is as readable. */
  readonly sealed: boolean;
}

const sealFormat = 'sthene.journal-seal/1';
const unfinishedName = '.part';

/**
 * Finds captures that ended without being closed, reads each once, and keeps what was found in a small seal beside it. The
 * segments are only read. Run it before a journal is opened in the folder, one station a folder. It may die at any act and be
 * run again: the result and the seal's bytes are the same. Captures sealed earlier are returned too, from their seal.
 */
export async function recover(port: JournalFilePort, folder: string): Promise<Recovered[]> {
  const names = (await port.list(folder)).map(({ name }) => name);
  for (const name of names) {
    // A seal that was being written when the station died; it is made anew.
    if (/^capture-\d+\.seal\.part$/.test(name)) await port.remove(`${folder}/${name}`);
  }
  const recovered: Recovered[] = [];
  for (const [capture, segments] of capturesIn(names)) {
    const known = await readSeal(port, `${folder}/${sealName(capture)}`);
    if (known !== undefined) {
      recovered.push({ ...known, words: wordsFor(known), sealed: true });
      continue;
    }
    if (await isClosed(port, folder, capture, segments.at(-1) as string)) continue;
    const report = await reportOf(port, folder, capture);
    const sealed = await writeSeal(port, folder, report);
    recovered.push({ ...report, words: wordsFor(report), sealed });
  }
  return recovered;
}

/** What one capture holds, without its packets. */
export async function reportOf(port: JournalFilePort, folder: string, capture: string): Promise<CaptureReport> {
  const reading = readCapture(port, folder, capture);
  for (;;) {
    const step = await reading.next();
    if (step.done) return step.value;
  }
}

/** Looks only at the last segment, so that a folder of finished days costs little. */
async function isClosed(port: JournalFilePort, folder: string, capture: string, last: string): Promise<boolean> {
  const bytes = await port.read(`${folder}/${last}`);
  const found = bytes && findHead(bytes, capture);
  return found !== undefined && scanSegment(bytes as Uint8Array, found.tag).frames.at(-1)?.kind === 'closing';
}

async function readSeal(port: JournalFilePort, path: string): Promise<CaptureReport | undefined> {
  const bytes = await port.read(path);
  if (bytes === undefined) return undefined;
  const found = readFrame(bytes, 0);
  if (!found.ok || found.frame.kind !== 'seal' || found.end !== bytes.length) return undefined;
  const seal = jsonObject(found.frame.payload);
  return seal?.format === sealFormat ? (seal.report as CaptureReport) : undefined;
}

async function writeSeal(port: JournalFilePort, folder: string, report: CaptureReport): Promise<boolean> {
  const path = `${folder}/${sealName(report.capture)}`;
  const temporary = `${path}${unfinishedName}`;
  const payload = jsonBytes({ format: sealFormat, report });
  const at = 0n as MonotonicNanoseconds;
  const bytes = encodeFrame({
    kind: 'seal',
    tag: 0,
    sequence: report.frames,
    sample: report.counts.endSample,
    at,
    payload,
  });
  try {
    const file = await port.create(temporary);
    try {
      await file.write(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await port.rename(temporary, path);
    await port.syncFolder(folder);
    return true;
  } catch {
    await port.remove(temporary).catch(() => {});
    return false;
  }
}

const plural = (count: number, one: string) => `${count} ${one}${count === 1 ? '' : 's'}`;

function wordsFor(report: CaptureReport): string {
  const { counts, lost, segments, capture, confirmedLost } = report;
  const bad = segments.flatMap((segment) => segment.bad);
  const cutBytes = bad.filter(({ fault }) => fault === 'cut').reduce((sum, { start, end }) => sum + end - start, 0);
  const damaged = bad.filter(({ fault }) => fault === 'damaged').length;
  const frames = lost.reduce((sum, { count }) => sum + count, 0);
  const samples = lost.reduce((sum, { samples }) => sum + (samples === undefined ? 0 : samples.end - samples.start), 0);
  const sentences = [
    `${capture} was not closed when the station stopped.`,
    counts.samples === 0
      ? 'It holds no samples.'
      : `Kept: ${plural(counts.samples, 'sample')} (${counts.firstSample} to ${counts.endSample - 1}) and ${plural(counts.marks, 'mark')}.`,
  ];
  if (frames > 0) {
    sentences.push(
      `Lost: ${plural(frames, 'frame')}${samples > 0 ? ` with ${plural(samples, 'sample')}, shown as a gap` : ''}.`,
    );
  }
  if (damaged > 0) sentences.push(`${plural(damaged, 'place')} on the disk could not be read.`);
  if (cutBytes > 0) sentences.push(`The last ${plural(cutBytes, 'byte')} were not finished when it stopped.`);
  if (frames === 0 && damaged === 0 && cutBytes === 0) sentences.push('Nothing that is there is damaged.');
  if (confirmedLost) {
    sentences.push(
      'Among what is lost are samples that the drive had confirmed: the drive does not keep its word or is failing. Replace it before the next session.',
    );
  }
  sentences.push('The files were not changed.');
  return sentences.join(' ');
}
