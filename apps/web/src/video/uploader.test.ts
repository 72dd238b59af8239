import { ApiProblem, decodeChunk, type VideoDraft } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { Uploader, type UploadPort, type UploadState } from './uploader.ts';

const draft = { rig: 'r', turn: 't', device: 'd', mediaType: 'video/webm', startedAt: 0 } satisfies VideoDraft;
const problem = (status: number, code: string) =>
  new ApiProblem({ type: '', title: '', status, code, detail: 'what', next: 'next' });

/** A station that fails as told and keeps what it confirmed. */
function station(fail: (act: string) => ApiProblem | undefined = () => undefined) {
  const log: string[] = [];
  const pieces = new Map<number, number[]>();
  const act = async (name: string, does: () => void = () => {}) => {
    log.push(name);
    const failure = fail(name);
    if (failure !== undefined) throw failure;
    does();
  };
  const port: UploadPort = {
    begin: () => act('begin'),
    chunk: (_, index, body) => act(`chunk ${index}`, () => pieces.set(index, [...(decodeChunk(body)?.piece ?? [])])),
    finish: (_, chunks) => act(`finish ${chunks}`),
    received: async () => [...pieces.keys()],
    abandon: () => act('abandon'),
  };
  return { port, log, pieces };
}

function upload(port: UploadPort) {
  const states: UploadState[] = [];
  const uploader = new Uploader(
    port,
    (state) => states.push(state),
    () => 7,
    () => new Promise((done) => setTimeout(done)),
  );
  return { uploader, states };
}

describe('films on their way', () => {
  it('are sent piece by piece while they are made, and finished', async () => {
    const { port, log, pieces } = station();
    const { uploader } = upload(port);
    uploader.begin('a', draft);
    uploader.add('a', Uint8Array.of(1), { frames: [1] });
    await uploader.settled();
    expect(log).toEqual(['begin', 'chunk 0']);
    expect(uploader.state).toMatchObject({ waiting: 0, confirmedAt: 7, films: 0 });
    uploader.add('a', Uint8Array.of(2), { frames: [2], stoppedAt: 3 });
    uploader.end('a', 'keep');
    await uploader.settled();
    expect(log).toEqual(['begin', 'chunk 0', 'chunk 1', 'finish 2']);
    expect([...pieces.values()]).toEqual([[1], [2]]);
    expect(uploader.state.films).toBe(1);
  });

  it('go on by themselves after the station was away', async () => {
    let left = 4;
    const { port, log } = station((name) =>
      name === 'chunk 0' && left-- > 0 ? problem(0, 'station-unreachable') : undefined,
    );
    const { uploader, states } = upload(port);
    uploader.begin('a', draft);
    uploader.add('a', Uint8Array.of(1), { frames: [] });
    uploader.end('a', 'keep');
    await uploader.settled();
    expect(log.filter((name) => name === 'chunk 0')).toHaveLength(5);
    expect(log.at(-1)).toBe('finish 1');
    expect(states.some(({ retrying, waiting }) => retrying && waiting === 1)).toBe(true);
    expect(uploader.state).toMatchObject({ retrying: false, waiting: 0, films: 1 });
  });

  it('send again what the station says is missing', async () => {
    let once = true;
    const { port, log, pieces } = station((name) => {
      if (!name.startsWith('finish') || !once) return undefined;
      once = false;
      pieces.delete(0);
      return problem(409, 'video-pieces-missing');
    });
    const { uploader } = upload(port);
    uploader.begin('a', draft);
    for (const n of [1, 2]) uploader.add('a', Uint8Array.of(n), { frames: [] });
    uploader.end('a', 'keep');
    await uploader.settled();
    expect(log).toEqual(['begin', 'chunk 0', 'chunk 1', 'finish 2', 'chunk 0', 'finish 2']);
  });

  it('that are refused are given up with the reason, and the next one goes on', async () => {
    const { port, log } = station((name) =>
      name === 'begin' && log.length === 1 ? problem(403, 'video-not-allowed') : undefined,
    );
    const { uploader } = upload(port);
    uploader.begin('a', draft);
    uploader.add('a', Uint8Array.of(1), { frames: [] });
    await uploader.settled();
    expect(uploader.state).toMatchObject({ waiting: 0, refused: { code: 'video-not-allowed' } });
    uploader.begin('b', draft);
    uploader.end('b', 'discard');
    await uploader.settled();
    expect(log.filter((name) => name.startsWith('chunk'))).toEqual([]);
  });

  it('of an effort that did not come are taken back', async () => {
    const { port, log } = station();
    const { uploader } = upload(port);
    uploader.begin('a', draft);
    await uploader.settled();
    uploader.add('a', Uint8Array.of(1), { frames: [] });
    uploader.end('a', 'discard');
    await uploader.settled();
    expect(log.at(-1)).toBe('abandon');
    expect(uploader.state).toMatchObject({ waiting: 0, films: 0 });
  });
});
