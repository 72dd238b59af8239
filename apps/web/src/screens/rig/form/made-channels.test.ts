import { describe, expect, it } from 'vitest';
import { withMatrix, withOneMore } from './made-channels.ts';
import { channelForm } from './source-form.ts';

const form = {
  channels: ['a', 'b', 'c'].map((name) => ({ ...channelForm(name, 'left'), plate: 'rack' })),
  calibration: [],
};
const made = (text: string, from = withOneMore(form)) => {
  const calibration = withMatrix(from, 0, { matrix: text });
  return { ...from, calibration: [calibration] };
};
const named = ({ calibration }: ReturnType<typeof made>) =>
  calibration[0]!.channels.map(({ name, axis, unit }) => `${name} ${axis} ${unit}`);

describe('what the lines of a matrix make', () => {
  it('begins with all channels as signals, which count as no force any more', () => {
    const begun = withOneMore(form);
    expect(begun.calibration).toEqual([{ signals: ['a', 'b', 'c'], matrix: '', channels: [] }]);
    expect(begun.channels.map(({ axis }) => axis)).toEqual(['other', 'other', 'other']);
    // The next one takes what is left.
    const some = { ...begun, calibration: [{ ...begun.calibration[0]!, signals: ['b'] }] };
    expect(withOneMore(some).calibration[1]?.signals).toEqual(['a', 'c']);
  });

  it('follows the number of lines in the usual order, on the plate of the signals', () => {
    expect(named(made('1 2 3'))).toEqual(['Fz z N']);
    expect(named(made('1 2 3\n4 5 6\n7 8 9'))).toEqual(['Fx x N', 'Fy y N', 'Fz z N']);
    expect(named(made(Array(6).fill('1 2 3').join('\n'), made('1 2 3')))).toEqual([
      ...['Fx x N', 'Fy y N', 'Fz z N'],
      ...['Mx mx N.m', 'My my N.m', 'Mz mz N.m'],
    ]);
    expect(named(made('1 2 3\n4 5 6'))).toEqual(['made 1 other N', 'made 2 other N']);
    expect(made('1 2 3').calibration[0]!.channels[0]).toMatchObject({ plate: 'rack', side: 'left' });
  });

  it('stays as a person wrote it', () => {
    const once = made('1 2 3');
    const own = {
      ...once,
      calibration: [{ ...once.calibration[0]!, channels: [{ ...once.calibration[0]!.channels[0]!, name: 'Force' }] }],
    };
    expect(named(made('1 2 3\n4 5 6\n7 8 9', own))).toEqual(['Force z N']);
  });

  it('does not take a name twice', () => {
    const first = made('1 2 3');
    const two = { ...first, calibration: [...first.calibration, { signals: ['c'], matrix: '', channels: [] }] };
    expect(withMatrix(two, 1, { matrix: '5' }).channels.map(({ name }) => name)).toEqual(['Fz rack']);
  });
});
