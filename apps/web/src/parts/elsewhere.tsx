import { useMay } from '../data/access.ts';
import { deviceWords } from '../words/devices.ts';

/** Says where something is done that this device may not do; nothing where it may. */
export function Elsewhere({
  unless,
  about,
}: {
  unless: Parameters<ReturnType<typeof useMay>>[0];
  about: keyof typeof deviceWords.elsewhere;
}) {
  const may = useMay();
  return may(unless) ? null : <p className="small soft elsewhere">{deviceWords.elsewhere[about]}</p>;
}
