// A lab of pulls, and its archive judged again:
//   node archive.mjs make DATA FILES COUNT TRIALS    COUNT files as recordings, TRIALS trials over them in turn
//   node archive.mjs again DATA METHOD               runs, compares and adopts
import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { defaultMethod, methodReference, methodRegistry } from '@sthene/core';
import { bytesOf, formatOf } from '@sthene/formats';
import { recomputeLab } from '@sthene/station';
import { folderFileStore, openStore } from '@sthene/store';
import { analyseRecording } from './analysis.mjs';
import { say } from './say.mjs';

const [act, data, ...rest] = process.argv.slice(2);
const actor = { by: 'station', station: 'station' };
const inputs = [
  { from: { kind: 'channel', index: 0 }, part: 'left' },
  { from: { kind: 'channel', index: 1 }, part: 'right' },
];

if (act === 'make') await make(rest[0], Number(rest[1]), Number(rest[2]));
else await again(rest[0]);

async function make(files, count, trials) {
  const folder = join(data, 'lab');
  mkdirSync(join(folder, 'recordings'), { recursive: true });
  let last = 0;
  const ids = { next: () => `id-${(++last).toString(36)}` };
  const store = await openStore({
    engine: { kind: 'sqlite', file: join(folder, 'sthene.sqlite') },
    files: folderFileStore({ folder, ids }),
    clock: { now: () => new Date().toISOString() },
    ids,
    application: 'sthene bench',
  });
  await store.settings.set('lab.name', 'Bench', actor);
  await store.methods.add(methodReference(defaultMethod).sha256, defaultMethod, actor);
  const paths = readdirSync(files).sort().slice(0, count);
  const pulls = [];
  for (const name of paths) {
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

async function again(name) {
  const lab = await recomputeLab({ data });
  const { method } = methodRegistry.get(name);
  const began = performance.now();
  const run = await lab.through(method, 'bench', () => {});
  const judged = performance.now();
  await lab.comparison(run.id);
  const compared = performance.now();
  await lab.adopt(run.id, 'bench', 'bench');
  const adopted = performance.now();
  await lab.close();
  say({
    work: judged - began,
    done: run.done,
    failed: run.failed,
    comparing: compared - judged,
    adopting: adopted - compared,
    memory: process.resourceUsage().maxRSS * 1024,
  });
}
