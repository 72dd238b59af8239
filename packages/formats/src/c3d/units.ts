/** Unit texts seen in C3D files, lower case without blanks, and their UCUM codes. */
const codes: Readonly<Record<string, string>> = {
  n: 'N',
  nt: 'N',
  newton: 'N',
  newtons: 'N',
  kn: 'kN',
  nmm: 'N.mm',
  ntmm: 'N.mm',
  'n-mm': 'N.mm',
  'n.mm': 'N.mm',
  nm: 'N.m',
  'n-m': 'N.m',
  'n.m': 'N.m',
  v: 'V',
  volt: 'V',
  volts: 'V',
  mv: 'mV',
  uv: 'uV',
  mm: 'mm',
  cm: 'cm',
  m: 'm',
  kg: 'kg',
  s: 's',
  hz: 'Hz',
  '%': '%',
  deg: 'deg',
  rad: 'rad',
  'rad/s': 'rad/s',
  'rad/s**2': 'rad/s2',
  'm/s': 'm/s',
  'm/s2': 'm/s2',
};

/**
 * UCUM code of a unit as C3D files write it, or '' where the text is blank or not known.
 *
 * Source: spellings of public sample files; UCUM codes from methods/jumps-and-plates.md section 6.3 (from memory there).
 */
export function unitCode(text: string): string {
  return codes[text.replaceAll(/\s/g, '').toLowerCase()] ?? '';
}

/** UCUM code to the spelling a C3D writer puts into UNITS; a code without one is written as it is. */
export function unitText(code: string): string {
  if (code === 'N.mm') return 'Nmm';
  if (code === 'N.m') return 'Nm';
  return code;
}
