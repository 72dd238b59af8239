import type { FrameLayout, LineLayout } from '../description.ts';
import { checksumOf, storeChecksum } from './checksum/checksum.ts';
import { writeField } from './frames/field.ts';
import { framePlan } from './frames/frame-plan.ts';
import type { Run } from './run.ts';

/** Writes runs as a device with this layout would send them; what virtual devices and tests speak. */
export function encoderOf(layout: LineLayout | FrameLayout, channels: readonly string[]): (run: Run) => Uint8Array {
  return layout.kind === 'lines' ? lineEncoder(layout, channels) : frameEncoder(layout, channels);
}

/** One line a sample; counters and times of a longer run go up from sample to sample by their step and are the caller's care. */
function lineEncoder(layout: LineLayout, channels: readonly string[]): (run: Run) => Uint8Array {
  const print = (value: number) => (Object.is(value, -0) ? '-0' : String(value));
  const decimal = (value: number) => (layout.decimal === ',' ? print(value).replace('.', ',') : print(value));
  const encoder = new TextEncoder();
  return (run) => {
    let text = '';
    for (let i = 0; i < run.count; i++) {
      const cells = layout.fields.map((field) => {
        if (field.role === 'counter') return String((run.counter ?? 0) + i * (field.step ?? 1));
        if (field.role === 'time') return decimal(run.time ?? 0);
        if (field.role === 'ignore') return '0';
        return decimal(run.values[i * channels.length + channels.indexOf(field.channel)] as number);
      });
      text += `${cells.join(layout.delimiter)}\r\n`;
    }
    return encoder.encode(text);
  };
}

/** One frame a run; the run has to have as many samples as a frame. */
function frameEncoder(layout: FrameLayout, channels: readonly string[]): (run: Run) => Uint8Array {
  const plan = framePlan(layout, channels);
  const sum = checksumOf(layout.checksum);
  const from = 'withSync' in layout.checksum && layout.checksum.withSync ? 0 : plan.sync.length;
  return (run) => {
    if (run.count !== plan.samples) throw new RangeError(`A frame holds ${plan.samples} samples, not ${run.count}.`);
    const bytes = new Uint8Array(plan.length);
    const view = new DataView(bytes.buffer);
    bytes.set(plan.sync);
    const put = (field: (typeof plan.head)[number], base: number, i: number): void => {
      const { role } = field;
      let value = 0;
      if (field.channel >= 0) value = run.values[i * plan.channels + field.channel] as number;
      else if (role.role === 'counter') value = (run.counter ?? 0) + i * (role.step ?? 1);
      else if (role.role === 'time') value = run.time ?? 0;
      writeField(view, base + field.at, field.type, plan.little, value);
    };
    for (const field of plan.head) put(field, 0, 0);
    for (let i = 0; i < plan.samples; i++) {
      for (const field of plan.sample) put(field, plan.sampleStart + i * plan.sampleLength, i);
    }
    if (sum !== undefined) storeChecksum(bytes, plan.checksumAt, layout.checksum, sum(bytes, from, plan.checksumAt));
    return bytes;
  };
}
