import { protocolRegistry, type SetupField } from '@sthene/core';

/** Setup fields as people read them, in the order of the test; unknown ones at the end under their id. */
export function setupWords(
  test: string,
  setup: Readonly<Record<string, string | number | boolean>>,
  fields: readonly SetupField[] = protocolRegistry.get(test)?.setupFields ?? [],
): string[] {
  const known = fields.filter((field) => field.id in setup);
  const rest = Object.keys(setup).filter((id) => !fields.some((field) => field.id === id));
  const say = (value: string | number | boolean | undefined) =>
    value === true ? 'yes' : value === false ? 'no' : String(value);
  return [
    ...known.map((field) => `${field.title} ${say(setup[field.id])}${unitOf(field)}`),
    ...rest.map((id) => `${id} ${say(setup[id])}`),
  ];
}

const unitOf = ({ unit }: SetupField) => (unit === undefined ? '' : `\u00a0${unit === 'deg' ? '°' : unit}`);
