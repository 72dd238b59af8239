import type { VideoSettings } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';
import type { Session, Trial, Video } from '@sthene/store';
import type { OpenLab } from '../labs/open-lab.ts';
import { hasConsentOnRecord, isMinor } from '../live/day/gates.ts';
import type { LoadedDay } from '../live/day/loaded.ts';
import type { RunningTurn } from '../live/turn.ts';
import { type FilmRule, filmRule } from './film-rule.ts';

/** Turns that are remembered, so that a device that was cut off can still say what it filmed. */
const remembered = 50;

/** What the station knows of a turn that is or was at a rig. */
export interface KnownTurn {
  readonly rig: string;
  readonly turn: RunningTurn;
}

/** Says of each turn whether it may be filmed, at once and without asking the disk. */
export class Filming {
  settings: VideoSettings = { minors: 'with-consent' };
  readonly #turns = new Map<string, KnownTurn>();

  /** The rule for whoever is on a rig, by the gates as they are now. */
  of(rig: string, turn: RunningTurn, loaded: LoadedDay | undefined): FilmRule {
    this.#turns.delete(turn.view.id);
    this.#turns.set(turn.view.id, { rig, turn });
    for (const id of [...this.#turns.keys()].slice(0, -remembered)) this.#turns.delete(id);
    const entry = loaded?.entries.find((one) => one.entry.id === turn.view.entry) ?? turn.entry;
    return filmRule({ unknown: turn.unknown, minor: entry.minor, consent: entry.consent }, this.settings);
  }

  /** A turn of now or of before; undefined when it is not known any more. */
  turn(id: string): KnownTurn | undefined {
    return this.#turns.get(id);
  }
}

/** The same rule for a kept video and whose trial it is now, asked of the store. */
export async function filmRuleOf(
  lab: OpenLab,
  video: Pick<Video, 'person' | 'entry' | 'filmedAt'>,
  settings: VideoSettings,
  of?: { readonly trial: Trial; readonly session: Session },
): Promise<FilmRule> {
  const { store } = lab;
  const entry = video.entry === undefined ? undefined : await store.dayEntries.get(video.entry);
  const person = await store.people.get(of?.session.person ?? video.person);
  const protocol = protocolRegistry.get(of?.session.protocol.id ?? entry?.test ?? 'imtp');
  if (person === undefined || protocol === undefined)
    return filmRule({ unknown: true, minor: false, consent: false }, settings);
  const about = { date: video.filmedAt.slice(0, 10), birthDate: person.birthDate };
  const consent = hasConsentOnRecord({ ...about, gates: await store.gates.ofPerson(person.id), protocol });
  return filmRule({ unknown: false, minor: isMinor(about), consent }, settings);
}
