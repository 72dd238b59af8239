// A lab of pulls, and its archive judged again:
//   node archive.mjs make DATA FILES COUNT TRIALS    COUNT files as recordings, TRIALS trials over them in turn
//   node archive.mjs judge DATA METHOD               goes on with the run or begins one; a line for each report, to be killed at
//   node archive.mjs again DATA METHOD               the same to the end, then compares and adopts
//   node archive.mjs check DATA                      what is in the lab, and whether its trail and records are whole
//   node archive.mjs parts FILES METHOD              processor time of the parts of judging a trial again
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { defaultMethod, methodReference, methodRegistry } from '@sthene/core';
import { bytesOf, formatOf } from '@sthene/formats';
import { recomputeLab } from '@sthene/station';
import { folderFileStore, openStore, resultText } from '@sthene/store';
import { analyseRecording } from './analysis.mjs';
import { say } from './say.mjs';

const [act, data, ...rest] = process.argv.slice(2);
const actor = { by: 'station', station: 'station' };
const inputs = [
  { from: { kind: 'channel', index: 0 }, part: 'left' },
  { from: { kind: 'channel', index: 1 }, part: 'right' },
];
const cpu = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

if (act === 'make') await make(rest[0], Number(rest[1]), Number(rest[2]));
else if (act === 'judge') await judge(rest[0]);
else if (act === 'check') await check();
else if (act === 'parts') await parts(data, rest[0]);
else await again(rest[0]);

async function labStore(folder) {
  mkdirSync(join(folder, 'recordings'), { recursive: true });
  let last = 0;
  const ids = { next: () => `id-${(++last).toString(36).padStart(6, '0')}` };
  return openStore({
    engine: { kind: 'sqlite', file: join(folder, 'sthene.sqlite') },
    files: folderFileStore({ folder, ids }),
    clock: { now: () => new Date().toISOString() },
    ids,
    application: 'sthene bench',
  });
}

async function make(files, count, trials) {
  const store = await labStore(join(data, 'lab'));
  await store.settings.set('lab.name', 'Bench', actor);
  await store.methods.add(methodReference(defaultMethod).sha256, defaultMethod, actor);
  const pulls = [];
  for (const name of readdirSync(files).sort().slice(0, count)) {
    const bytes = readFileSync(join(files, name));
    const read = await formatOf('text').read(bytesOf(bytes, name));
    const { recording } = read.recordings[0];
    const { sampleRate, sampleCount } = recording;
    const file = { bytes, fileName: name, mediaType: 'text/csv', format: 'text', sampleRate, sampleCount };
    const kept = await store.recordings.add(file, actor);
    pulls.push({ sha256: kept.recording.sha256, document: analyseRecording(recording, defaultMethod) });
  }
  const versions = { metrics: {}, checks: {} };
  for (let start = 0; start < trials; start += 25)
    await store.transaction(async (inside) => {
      const code = `A${start}`;
      const person = await inside.people.add({ code, givenName: 'Invented', familyName: code }, actor);
      const session = await inside.sessions.add(
        {
          person: person.id,
          protocol: { id: 'imtp', version: 1 },
          startedAt: '2026-03-02T08:00:00.000Z',
          gravity: 9.80665,
        },
        actor,
      );
      for (let i = start; i < Math.min(trials, start + 25); i++) {
        const { sha256, document } = pulls[i % pulls.length];
        const trial = await inside.trials.add(
          { session: session.id, effort: 'maximal', recording: sha256, forceSelection: { inputs } },
          actor,
        );
        await inside.results.add({ trial: trial.id, document, versions }, actor);
      }
    });
  await store.close();
  say({ trials });
}

/** Goes on with a run, or begins one. */
async function through(name, report) {
  const lab = await recomputeLab({ data });
  const { method } = methodRegistry.get(name);
  const began = performance.now();
  const before = cpu();
  const run = await lab.through(method, 'bench', report);
  return { lab, run, work: performance.now() - began, cpu: cpu() - before };
}

async function judge(name) {
  const { lab } = await through(name, ({ done }) => process.stdout.write(`${done}\n`));
  await lab.close();
}

async function again(name) {
  const { lab, run, work, cpu: spent } = await through(name, () => {});
  const judged = performance.now();
  await lab.comparison(run.id);
  const compared = performance.now();
  await lab.adopt(run.id, 'bench', 'bench');
  const adopted = performance.now();
  await lab.close();
  say({
    work,
    cpu: spent,
    done: run.done,
    failed: run.failed,
    comparing: compared - judged,
    adopting: adopted - compared,
    memory: process.resourceUsage().maxRSS * 1024,
  });
}

async function check() {
  const store = await labStore(join(data, 'lab'));
  const [run] = await store.recomputations.list();
  let twice = 0;
  for (const { trial } of run === undefined ? [] : await allOf(store, run.id)) {
    const own = (await store.results.ofTrial(trial)).filter((one) => one.run === run.id);
    if (own.length > 1) twice++;
  }
  const counts = run === undefined ? { done: 0 } : await store.recomputations.counts(run.id);
  const { intact } = await store.audit.verify();
  const problems = (await store.audit.verifyRecords()).length;
  await store.close();
  say({ done: counts.done, twice, intact, problems });
}

async function allOf(store, run) {
  const found = [];
  for (;;) {
    const last = found.at(-1)?.trial;
    const rows = await store.recomputations.outcomes(run, {
      limit: 500,
      ...(last === undefined ? {} : { after: last }),
    });
    found.push(...rows);
    if (rows.length < 500) return found;
  }
}

/** Processor time of each part for one trial with a file of its own, ms, all in one thread and after a first go. */
async function parts(files, name) {
  const { method } = methodRegistry.get(name);
  const names = readdirSync(files).sort().slice(0, 200);
  const contents = names.map((one) => readFileSync(join(files, one)));
  const folder = `${files}-parts`;
  const spent = {};
  const timed = async (part, act) => {
    const began = cpu();
    const found = await act();
    spent[part] = (cpu() - began) / names.length;
    return found;
  };
  let bytes = 0;
  for (let round = 0; round < 2; round++) {
    await timed('proving', () =>
      contents.map((one, i) =>
        createHash('sha256')
          .update(readFileSync(join(files, names[i])))
          .digest('hex'),
      ),
    );
    const recordings = await timed('reading', async () => {
      const found = [];
      for (const [i, one] of contents.entries())
        found.push((await formatOf('text').read(bytesOf(one, names[i]))).recordings[0].recording);
      return found;
    });
    const documents = await timed('judging', () => recordings.map((one) => analyseRecording(one, method)));
    const texts = await timed('writing', () => documents.map((one) => resultText(one, {})));
    bytes = texts[0].document.length;
    await timed('handing', () => structuredClone(texts));
    rmSync(folder, { recursive: true, force: true });
    const store = await labStore(folder);
    const { sha256 } = methodReference(method);
    await store.methods.add(sha256, method, actor);
    const person = await store.people.add({ code: 'A', givenName: 'Invented', familyName: 'A' }, actor);
    const test = { protocol: { id: 'imtp', version: 1 }, startedAt: '2026-03-02T08:00:00.000Z', gravity: 9.80665 };
    const session = await store.sessions.add({ person: person.id, ...test }, actor);
    const file = { bytes: contents[0], fileName: 'a.csv', mediaType: 'text/csv', format: 'text' };
    const { recording } = await store.recordings.add({ ...file, sampleRate: 1000, sampleCount: 10000 }, actor);
    const trial = { session: session.id, effort: 'maximal', recording: recording.sha256, forceSelection: { inputs } };
    const trials = await store.transaction(async (inside) => {
      const found = [];
      for (const _ of texts) found.push((await inside.trials.add(trial, actor)).id);
      return found;
    });
    const run = await store.recomputations.add({ method: sha256 }, actor);
    const seen = (await store.audit.last()).sequence;
    const outcomes = trials.map((id, i) => ({
      ...{ trial: id, trialRevision: 1, sessionRevision: 1, basis: seen },
      made: { text: texts[i] },
    }));
    const kept = await timed('keeping', () => store.recomputations.keep(run.id, outcomes, actor));
    if (kept !== trials.length) throw new Error(`${kept} of ${trials.length} outcomes were kept.`);
    await store.close();
  }
  rmSync(folder, { recursive: true, force: true });
  say({ ...spent, bytes });
}
