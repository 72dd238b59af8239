/** Everything a key can do on the Floor. */
export const keyActs = [
  'main',
  'stop',
  'hold',
  'pain',
  'zero',
  'skip',
  'same',
  'athlete',
  'note',
  'take',
  'blank',
  'keys',
] as const;
export type KeyAct = (typeof keyActs)[number];

/** Keys of each act, as `KeyboardEvent.key` names them, letters small. */
export type KeyMap = Readonly<Record<KeyAct, readonly string[]>>;

/** Presenters send Page Down and Page Up, and a full stop or B to blank. */
export const usualKeys: KeyMap = {
  main: [' ', 'PageDown'],
  stop: ['Escape', 'PageUp'],
  hold: ['h'],
  pain: ['p'],
  zero: ['z'],
  skip: ['s'],
  same: ['l'],
  athlete: ['a'],
  note: ['n'],
  take: ['c'],
  blank: ['b', '.'],
  keys: ['?'],
};

/** Whatever a presenter can send; each stops a cue that would sound by itself. */
const presenterKeys: ReadonlySet<string> = new Set([
  'PageDown',
  'PageUp',
  'ArrowLeft',
  'ArrowRight',
  'ArrowUp',
  'ArrowDown',
  '.',
  'b',
  'F5',
  'Escape',
  'Enter',
  ' ',
]);

export const isPresenterKey = (key: string): boolean => presenterKeys.has(named(key));

/** The name under which a key is kept: letters without their case. */
export const named = (key: string): string => (key.length === 1 ? key.toLowerCase() : key);

/** Keys that no act may take: they move the focus or belong to the browser. */
const reserved: ReadonlySet<string> = new Set([
  'Tab',
  'Shift',
  'Control',
  'Alt',
  'Meta',
  'CapsLock',
  'Dead',
  'Unidentified',
]);
export const mayBeKey = (key: string): boolean => !reserved.has(key);

/** The act a key belongs to. */
export function actOf(keys: KeyMap, key: string): KeyAct | undefined {
  const name = named(key);
  return keyActs.find((act) => keys[act].includes(name));
}

/** The map with one key more, or the act that has it already. */
export function withKey(keys: KeyMap, act: KeyAct, key: string): KeyMap | { readonly clash: KeyAct } {
  const name = named(key);
  const owner = actOf(keys, name);
  if (owner !== undefined && owner !== act) return { clash: owner };
  return keys[act].includes(name) ? keys : { ...keys, [act]: [...keys[act], name] };
}

/** Escape always stops: whoever looks for a way out finds it. */
const always = 'Escape';
export const isFixed = (act: KeyAct, key: string): boolean => act === 'stop' && key === always;

export function withoutKey(keys: KeyMap, act: KeyAct, key: string): KeyMap {
  return isFixed(act, key) ? keys : { ...keys, [act]: keys[act].filter((one) => one !== key) };
}

/** The kept map; the usual one where nothing readable is kept. A key of two acts belongs to the first. */
export function keysFrom(text: string | undefined): KeyMap {
  if (text === undefined) return usualKeys;
  try {
    const kept = JSON.parse(text) as Partial<Record<KeyAct, unknown>>;
    const seen = new Set([always]);
    const listOf = (act: KeyAct): string[] => {
      const list = kept[act];
      const own = (Array.isArray(list) ? list : usualKeys[act]).filter((key): key is string => {
        if (typeof key !== 'string' || seen.has(key)) return false;
        seen.add(key);
        return true;
      });
      return act === 'stop' ? [always, ...own] : own;
    };
    return Object.fromEntries(keyActs.map((act) => [act, listOf(act)])) as unknown as KeyMap;
  } catch {
    return usualKeys;
  }
}

export const keysText = (keys: KeyMap): string => JSON.stringify(keys);
