import { matrixCells } from './matrix-text.ts';
import type { CalibrationForm, ChannelForm, MadeForm, SourceForm } from './source-form.ts';

/** What the rows of a matrix usually are, by their number. */
const usual: Readonly<Record<number, readonly string[]>> = {
  1: ['Fz'],
  3: ['Fx', 'Fy', 'Fz'],
  6: ['Fx', 'Fy', 'Fz', 'Mx', 'My', 'Mz'],
};
const axisOf: Readonly<Record<string, string>> = { Fx: 'x', Fy: 'y', Fz: 'z', Mx: 'mx', My: 'my', Mz: 'mz' };

/** Channels for so many rows, to begin with: by their usual order where there is one, on the plate of the signals. */
function proposed(rows: number, plate: Pick<ChannelForm, 'plate' | 'side'>, taken: ReadonlySet<string>): MadeForm[] {
  const names = usual[rows] ?? Array.from({ length: rows }, (_, i) => `made ${i + 1}`);
  return names.map((name) => ({
    name: taken.has(name) ? `${name} ${plate.plate}` : name,
    plate: plate.plate,
    side: plate.side,
    axis: axisOf[name] ?? 'other',
    unit: name.startsWith('M') ? 'N.m' : 'N',
  }));
}

/**
 * The calibration at a place with other signals or another matrix. Its channels follow the number of rows until a person has changed
 * them; then they stay as they are.
 */
export function withMatrix(
  form: Pick<SourceForm, 'calibration' | 'channels'>,
  at: number,
  part: Partial<Pick<CalibrationForm, 'signals' | 'matrix'>>,
): CalibrationForm {
  const before = form.calibration[at] ?? emptyCalibration;
  const after = { ...before, ...part };
  const others = form.calibration.filter((_, i) => i !== at).flatMap(({ channels }) => channels);
  const taken = new Set([...form.channels, ...others].map(({ name }) => name));
  const propose = ({ signals, matrix }: CalibrationForm) =>
    proposed(
      matrixCells(matrix).length,
      form.channels.find(({ name }) => name === signals[0]) ?? { plate: '', side: 'none' },
      taken,
    );
  const untouched = JSON.stringify(before.channels) === JSON.stringify(propose(before));
  return untouched ? { ...after, channels: propose(after) } : after;
}

export const emptyCalibration: CalibrationForm = { signals: [], matrix: '', channels: [] };

/** Signals count as no force beside what is made of them. */
export const asSignals = (channels: readonly ChannelForm[], signals: readonly string[]): ChannelForm[] =>
  channels.map((channel) => (signals.includes(channel.name) ? { ...channel, axis: 'other' } : channel));

/** One more matrix, of all the channels that no other one takes. */
export function withOneMore(
  form: Pick<SourceForm, 'calibration' | 'channels'>,
): Pick<SourceForm, 'calibration' | 'channels'> {
  const used = new Set(form.calibration.flatMap(({ signals }) => signals));
  const signals = form.channels.map(({ name }) => name).filter((name) => !used.has(name));
  return {
    calibration: [...form.calibration, { ...emptyCalibration, signals }],
    channels: asSignals(form.channels, signals),
  };
}
