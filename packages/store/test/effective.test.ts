import type { UtcInstant } from '@sthene/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Decision, type DecisionContent, effectiveDecisions, standingOf } from '../src/index.ts';

/** A list of decisions made one after the other; ids are d1, d2, ... */
function made(...contents: (DecisionContent & { reverts?: string })[]): Decision[] {
  return contents.map((content, index) => ({
    ...content,
    id: `d${index + 1}`,
    sequence: index + 1,
    trial: 't',
    reason: 'r',
    by: 'account-coach',
    station: 's',
    at: '2026-03-02T08:00:00.000Z' as UtcInstant,
  }));
}

const onset = (index: number) => ({ kind: 'onset-by-hand', payload: { index } }) as const;
const automatic = { kind: 'onset-automatic', payload: {} } as const;
const exclude = { kind: 'exclude', payload: { category: 'slack' } } as const;
const restore = { kind: 'restore', payload: {} } as const;
const overrule = { kind: 'overrule-counts', payload: {} } as const;
const note = (text: string) => ({ kind: 'note', payload: { text } }) as const;
const undo = (reverts: string) => ({ kind: 'undo', payload: {}, reverts }) as const;
const redo = (reverts: string) => ({ kind: 'redo', payload: {}, reverts }) as const;

/** What matters of a state, short enough to compare by eye. */
function brief(decisions: Decision[]) {
  const state = effectiveDecisions(decisions);
  return {
    onset: state.onsetByHand?.payload.index,
    standing: state.excluded ? 'excluded' : state.overruled ? 'overruled' : undefined,
    notes: state.notes.map(({ payload }) => payload.text).join(),
    undoable: state.undoable?.id,
    redoable: state.redoable?.id,
  };
}

const nothing = { onset: undefined, standing: undefined, notes: '', undoable: undefined, redoable: undefined };

describe('effective decisions', () => {
  it.each<[string, Decision[], Partial<ReturnType<typeof brief>>]>([
    ['no decision', made(), {}],
    ['an onset', made(onset(5)), { onset: 5, undoable: 'd1' }],
    ['the later onset', made(onset(5), onset(6)), { onset: 6, undoable: 'd2' }],
    ['back to automatic', made(onset(5), automatic), { undoable: 'd2' }],
    ['excluded', made(overrule, exclude), { standing: 'excluded', undoable: 'd2' }],
    ['overruled', made(exclude, overrule), { standing: 'overruled', undoable: 'd2' }],
    ['restored', made(exclude, restore), { undoable: 'd2' }],
    ['onset and standing apart', made(onset(5), exclude, automatic), { standing: 'excluded', undoable: 'd3' }],
    ['notes in order', made(note('a'), exclude, note('b')), { notes: 'a,b', standing: 'excluded', undoable: 'd3' }],
    ['undone', made(exclude, undo('d1')), { redoable: 'd2' }],
    ['undone to the earlier one', made(onset(5), onset(6), undo('d2')), { onset: 5, undoable: 'd1', redoable: 'd3' }],
    ['redone', made(exclude, undo('d1'), redo('d2')), { standing: 'excluded', undoable: 'd1' }],
    ['redone and undone again', made(exclude, undo('d1'), redo('d2'), undo('d1')), { redoable: 'd4' }],
    ['two undone', made(onset(5), onset(6), undo('d2'), undo('d1')), { redoable: 'd4' }],
    [
      'two undone, one redone',
      made(onset(5), onset(6), undo('d2'), undo('d1'), redo('d4')),
      { onset: 5, undoable: 'd1', redoable: 'd3' },
    ],
    [
      'nothing to redo after something new',
      made(onset(5), undo('d1'), exclude),
      { standing: 'excluded', undoable: 'd3' },
    ],
    ['an undone restore', made(exclude, restore, undo('d2')), { standing: 'excluded', undoable: 'd1', redoable: 'd3' }],
  ])('%s', (_, decisions, expected) => {
    expect(brief(decisions)).toEqual({ ...nothing, ...expected });
    expect(brief([...decisions].reverse())).toEqual({ ...nothing, ...expected });
  });

  it('carries who, when and why', () => {
    const [decision] = made(exclude);
    expect(effectiveDecisions(made(exclude)).excluded).toEqual(decision);
  });

  it('comes back to the same state by as many redos as undos, from any list', () => {
    const content = fc.oneof(
      fc.integer({ min: 0, max: 9 }).map(onset),
      fc.constantFrom(automatic, exclude, restore, overrule),
      fc.constantFrom('a', 'b').map(note),
    );
    const step = fc.oneof({ weight: 3, arbitrary: content }, { weight: 2, arbitrary: fc.constantFrom('undo', 'redo') });
    fc.assert(
      fc.property(fc.array(step, { maxLength: 12 }), fc.integer({ min: 1, max: 6 }), (steps, count) => {
        const list: (DecisionContent & { reverts?: string })[] = [];
        const act = (name: 'undo' | 'redo'): boolean => {
          const { undoable, redoable } = effectiveDecisions(made(...list));
          const target = name === 'undo' ? undoable : redoable;
          if (target === undefined) return false;
          list.push(name === 'undo' ? undo(target.id) : redo(target.id));
          return true;
        };
        for (const one of steps) {
          if (typeof one === 'string') act(one as 'undo' | 'redo');
          else list.push(one);
        }
        const { redoable: _, ...before } = brief(made(...list));
        let undone = 0;
        while (undone < count && act('undo')) undone += 1;
        for (let n = 0; n < undone; n += 1) expect(act('redo')).toBe(true);
        const { redoable: __, ...after } = brief(made(...list));
        expect(after).toEqual(before);
      }),
      { numRuns: 500 },
    );
  });
});

describe('standing', () => {
  it.each([
    [undefined, made(), 'not-analysed'],
    [undefined, made(exclude), 'excluded'],
    [undefined, made(overrule), 'not-analysed'],
    ['repeat', made(), 'repeat'],
    ['repeat', made(overrule), 'counts'],
    ['look-again', made(overrule, restore), 'look-again'],
    ['counts', made(exclude), 'excluded'],
    ['counts', made(exclude, undo('d1')), 'counts'],
  ] as const)('of %s', (verdict, decisions, expected) => {
    expect(standingOf(verdict, effectiveDecisions(decisions))).toBe(expected);
  });
});
