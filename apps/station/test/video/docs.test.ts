import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { videoProblems } from '../../src/video/problems.ts';

it('the page of refusals lists every code once, and no other', () => {
  const page = readFileSync(new URL('../../../../docs/reference/video.md', import.meta.url), 'utf8');
  const listed = [...page.matchAll(/^\| `(video-[a-z-]+)` \|/gm)].map(([, code]) => code);
  const known = Object.values(videoProblems).map(
    (problem) => (problem as (x: never) => { code: string })([] as never).code,
  );
  expect(listed.toSorted()).toEqual(known.toSorted());
});
