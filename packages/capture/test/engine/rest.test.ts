import { expect, it } from 'vitest';
import { aimed, pullGuided, quickRules, staged } from './acts.ts';
import { athlete } from './stage.ts';

const wren = athlete('p-wren');

it('rest has a maximum: then a submaximal effort comes first', () => {
  const running = { ...quickRules, rest: { afterSubmaximal: 5, minimum: 8, maximum: 40 } };
  const stage = staged(wren, {}, { running });
  pullGuided(stage);
  stage.order({ order: 'advance' });
  stage.wait(41);
  expect(stage.of('rest').map(({ state }) => state)).toEqual(['began', 'over', 'too-long']);
  // Whoever rests on the rig is told, before anybody goes on.
  expect(stage.of('phase').at(-1)).toMatchObject({ phase: 'rest', effort: { kind: 'submaximal' } });
  expect(stage.said('warm-up-again')).toBe(true);
  stage.order({ order: 'advance' });
  expect(stage.of('phase').at(-1)).toMatchObject({
    phase: 'set-up',
    effort: { kind: 'submaximal', target: { share: 0.75 } },
  });
  expect(stage.said('warm-up-again')).toBe(true);
});

it('a long rest within the warm-up asks for no effort more than was planned', () => {
  const running = { ...quickRules, rest: { afterSubmaximal: 5, minimum: 8, maximum: 40 } };
  const stage = staged(wren, { warmUpDone: 0 }, { running });
  pullGuided(stage, aimed(stage));
  stage.order({ order: 'advance' });
  stage.wait(41);
  stage.order({ order: 'advance' });
  expect(stage.of('phase').at(-1)).toMatchObject({ phase: 'set-up', effort: { target: { share: 0.75 } } });
  pullGuided(stage, aimed(stage), 6);
  expect(stage.closed.map(({ target }) => target?.share)).toEqual([0.5, 0.75]);
  expect(stage.of('phase').at(-1)).toMatchObject({ phase: 'verdict', effort: { kind: 'maximal' } });
});

it('says how the rest stands when a hold in it ends', () => {
  const stage = staged(wren);
  pullGuided(stage);
  stage.order({ order: 'advance' });
  const said = () => stage.of('guidance').at(-1)?.code;
  for (const [wait, code] of [
    [1, 'rest'],
    [9, 'rest-over'],
  ] as const) {
    stage.order({ order: 'hold' });
    expect(said()).toBe('on-hold');
    stage.wait(wait);
    stage.order({ order: 'resume' });
    expect(stage.phase).toBe('rest');
    expect(said()).toBe(code);
  }
});
