import { useSyncExternalStore } from 'react';
import { onPreference, type PreferenceName, readPreference, writePreference } from './preferences.ts';

/** A preference as state. */
export function usePreference(name: PreferenceName): [string | undefined, (value: string) => void] {
  const value = useSyncExternalStore(onPreference, () => readPreference(name));
  return [value, (next) => writePreference(name, next)];
}
