import type { Channel, RawSamples } from '@sthene/core';
import type { C3dLayout } from './layout.ts';
import { uniqueNames } from './names.ts';
import type { Notices } from './notices.ts';
import { continued, numbersOf, type Parameter, stringsOf } from './parameters.ts';
import { unitCode } from './units.ts';

type Parameters = ReadonlyMap<string, Parameter>;

/** What the converter can give, from ANALOG:BITS, if all samples obey it. */
function converterRange(
  raw: RawSamples,
  bits: number | undefined,
  offset: number,
  layout: C3dLayout,
): readonly [number, number] | undefined {
  if (layout.float || bits === undefined || !Number.isInteger(bits) || bits < 2 || bits > 16) return undefined;
  const half = 2 ** (bits - 1);
  // An offset near the middle of 0 ... 2^bits - 1 means that the converter counts from zero, also in signed storage.
  const fromZero = layout.unsigned || Math.abs(offset - half) <= half / 8;
  const [low, high] = fromZero ? [0, 2 * half - 1] : [-half, half - 1];
  return raw.every((value: number) => value >= low && value <= high) ? [low, high] : undefined;
}

/**
 * Names, units and scaling of the analog channels: `physical = (raw - OFFSET) * (SCALE * GEN_SCALE)`.
 *
 * With FORMAT "UNSIGNED" the offsets are read as unsigned words, in float files too. A missing or unusable scale counts as 1
 * and is told. A unit text without a known UCUM code leaves the unit empty and is kept as a fact by the caller.
 *
 * @returns the channels and the unit texts that have no code, by channel name
 *
 * Source: C3D User Guide, ANALOG group (c3d.org).
 */
export function channelsOf(
  raw: readonly RawSamples[],
  layout: C3dLayout,
  parameters: Parameters,
  notices: Notices,
): { readonly channels: Channel[]; readonly unknownUnits: ReadonlyMap<string, string> } {
  const labels = continued(parameters, 'ANALOG:LABELS', stringsOf);
  const units = continued(parameters, 'ANALOG:UNITS', stringsOf);
  const scales = continued(parameters, 'ANALOG:SCALE', (p) => numbersOf(p));
  const asStored = { unsigned: layout.unsigned };
  const named = continued(parameters, 'ANALOG:OFFSET', (p) => numbersOf(p, asStored));
  const offsets = named.length > 0 ? named : numbersOf(parameters.get('ANALOG:OFFSETS'), asStored);
  const bits = numbersOf(parameters.get('ANALOG:BITS'))[0];

  const general = numbersOf(parameters.get('ANALOG:GEN_SCALE'))[0];
  const usable = (scale: number | undefined): scale is number => scale !== undefined && Number.isFinite(scale);
  const genScale = usable(general) && general !== 0 ? general : 1;
  if (general !== undefined && genScale !== general) {
    notices.add('c3d-scale-unusable', `ANALOG:GEN_SCALE is ${general}; 1 was used.`);
  }
  const names = uniqueNames(Array.from(raw, (_, i) => labels[i] ?? ''));
  const unscaled = names.filter((_, i) => !usable(scales[i]));
  if (unscaled.length > 0) {
    notices.add(
      'c3d-scale-missing',
      `${unscaled.length} of ${names.length} channels have no usable ANALOG:SCALE (first: ${unscaled[0]}); 1 was used.`,
    );
  }
  const unknownUnits = new Map<string, string>();
  const channels = raw.map((samples, i): Channel => {
    const name = names[i] as string;
    const scale = scales[i];
    const offset = usable(offsets[i]) ? (offsets[i] as number) : 0;
    const unit = unitCode(units[i] ?? '');
    if (unit === '' && (units[i] ?? '') !== '') unknownUnits.set(name, units[i] as string);
    const rawRange = converterRange(samples, bits, offset, layout);
    return {
      name,
      unit,
      raw: samples,
      scale: (usable(scale) ? scale : 1) * genScale,
      offset,
      ...(rawRange === undefined ? {} : { rawRange }),
    };
  });
  return { channels, unknownUnits };
}
