import { describe, expect, it } from 'vitest';
import {
  correctedChannels,
  type HeaderPacket,
  type Packet,
  type StreamChannel,
  uncorrected,
  type VirtualScript,
  virtualPlates,
  virtualScripts,
} from '../../src/index.ts';
import { stillClock } from './rig.ts';

/** Mean of each plate over the second that ends at a sample, for loads put on at given samples; nobody stands there. */
async function shown(script: VirtualScript, acts: readonly (readonly [at: number, left: number, right: number])[]) {
  const packets: Packet[] = [];
  const plates = virtualPlates({ id: 'rig', script: { ...script, byHand: true }, seed: 3, clock: stillClock });
  await plates.start((packet) => void packets.push(packet));
  const means: { left: number; right: number }[] = [];
  for (const [at, left, right] of acts) {
    plates.run(at);
    plates.putLoad('left', left);
    plates.putLoad('right', right);
    plates.run(at + 3000);
    const last = packets.filter((one) => one.kind === 'samples').slice(-50);
    const sums = last.reduce(
      (sum, { values, count }) => {
        for (let i = 0; i < count; i++) {
          sum.left += values[i] as number;
          sum.right += values[count + i] as number;
        }
        return sum;
      },
      { left: 0, right: 0 },
    );
    means.push({ left: sums.left / 1000, right: sums.right / 1000 });
  }
  await plates.stop();
  return { means, header: packets.find((one): one is HeaderPacket => one.kind === 'header') };
}

const loads = [0, 200, 400, 200, 0];
const acts = loads.map((force, i) => [3000 * i, force, force] as const);

// Noise of 0.6 N: the mean of 1000 samples is within 0.1 N (five standard errors).
describe('masses on virtual plates', () => {
  it('are shown as they are by sound plates, up and down', async () => {
    const { means } = await shown(virtualScripts['fernwater-three']!, acts);
    for (const [i, force] of loads.entries())
      for (const side of ['left', 'right'] as const) expect(Math.abs(means[i]![side] - force)).toBeLessThan(0.1);
  });

  it('are shown 1.2 % too high by the worn left one, and the worn right one sticks by 3 N', async () => {
    const { means } = await shown(virtualScripts['fernwater-worn']!, acts);
    for (const [i, force] of loads.entries()) expect(Math.abs(means[i]!.left - 1.012 * force)).toBeLessThan(0.1);
    // Play: pushed along 3 N behind the force; half way down it shows the way up plus 6 N.
    const wanted = [0, 197, 397, 203, 3];
    for (const [i, want] of wanted.entries()) expect(Math.abs(means[i]!.right - want)).toBeLessThan(0.1);
  });
});

describe('a correction in the channels of a stream', () => {
  const channel = (name: string, plate: string, more: Partial<StreamChannel> = {}): StreamChannel => ({
    ...{ name, plate, side: 'left', axis: 'z', unit: 'N', scale: 0.5, offset: 100, ...more },
  });
  const adopted = { id: 'c1', plates: [{ plate: 'L', gain: 1.012, offset: 2 }] };
  const value = ({ scale, offset }: StreamChannel, raw: number) => (raw - offset) * scale;

  it('divides by the gain and takes off the offset, of its plate alone and of vertical forces alone', () => {
    const channels = [channel('a', 'L'), channel('b', 'R'), channel('m', 'L', { axis: 'mx', unit: 'N.m' })];
    const [a, b, m] = correctedChannels(channels, adopted) as [StreamChannel, StreamChannel, StreamChannel];
    for (const raw of [0, 100, 2000]) expect(value(a, raw)).toBeCloseTo((value(channels[0]!, raw) - 2) / 1.012, 9);
    expect([b, m]).toEqual(channels.slice(1));
    expect(a.corrected).toEqual({ id: 'c1', gain: 1.012, offset: 2 });
  });

  it('shares an offset among the cells of a plate', () => {
    const cells = [channel('a', 'L'), channel('b', 'L'), channel('c', 'L', { unit: 'kN' })];
    const put = correctedChannels(cells, adopted);
    const sum = (list: readonly StreamChannel[]) =>
      list.reduce((total, one) => total + value(one, 500) * (one.unit === 'kN' ? 1000 : 1), 0);
    expect(sum(put)).toBeCloseTo((sum(cells) - 2) / 1.012, 6);
  });

  it('takes the place of an earlier one, and is taken back to what the source described', () => {
    const first = correctedChannels([channel('a', 'L')], adopted);
    const again = correctedChannels(first, { id: 'c2', plates: [{ plate: 'L', gain: 0.99, offset: 0 }] });
    expect(again[0]?.corrected?.id).toBe('c2');
    expect(value(again[0]!, 700)).toBeCloseTo(300 / 0.99, 9);
    expect(uncorrected(first[0]!).scale).toBeCloseTo(0.5, 12);
    expect(uncorrected(first[0]!).offset).toBeCloseTo(100, 9);
    expect(uncorrected(first[0]!).corrected).toBeUndefined();
  });
});
