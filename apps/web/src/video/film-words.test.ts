import { describe, expect, it } from 'vitest';
import type { FilmState } from './film-store.ts';
import { filmSays } from './film-words.ts';

const upload = { waiting: 0, films: 0, retrying: false };
const rig = { id: 'r1', letter: 'A', state: 'measuring' };
const film = { allowed: true, words: 'May be filmed.' };
const turn = { id: 't1' };
/** A camera that films nothing because nobody is there; each case changes what it is about. */
const says = (change: object) =>
  filmSays({ link: 'open', camera: 'ready', rig, floor: {}, dayOpen: true, upload, ...change } as FilmState);

describe('what a camera says', () => {
  it('is why nothing is filmed while nobody is on the rig', () => {
    expect(says({}).words).toBe('Nobody is on the rig.');
    expect(says({ dayOpen: false }).words).toBe('No day is open.');
    expect(says({ rig: { ...rig, state: 'closed' }, dayOpen: false }).words).toBe('Rig A is closed.');
    expect(says({ rig: undefined })).toMatchObject({ tone: 'look', words: 'There is no such rig in this lab.' });
    // Before the station has said so, it is not claimed.
    expect(says({ dayOpen: undefined }).words).toBe('Nobody is on the rig.');
  });
  it('is the reason the station gives where whoever is there may not be filmed', () => {
    const words = 'Not filmed: under 18, and no consent in force is on record.';
    expect(says({ floor: { turn, film: { allowed: false, words } } })).toMatchObject({ tone: 'look', words });
    expect(says({ floor: { turn, film } }).words).toMatch(/^Ready\./);
  });
  it('is first of all that there is no camera, then that it films, then that the station is away', () => {
    const under = { turn: 't1', since: 0, pulled: false };
    expect(says({ camera: 'lost', link: 'lost', under }).words).toBe('The camera is gone.');
    expect(says({ camera: 'denied' })).toMatchObject({ tone: 'look', words: 'This page may not use the camera.' });
    expect(says({ link: 'lost', under })).toMatchObject({
      tone: 'film',
      words: expect.stringMatching(/^Filming, with/),
    });
    expect(says({ link: 'lost' }).words).toBe('The station does not answer.');
    expect(says({ camera: 'asking', link: 'lost' }).words).toBe('Waiting for the camera.');
  });
});
