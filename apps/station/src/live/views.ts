import { type Day, liveProtocol, type RigFloor, type RigView } from '@sthene/contract';
import { nameOf } from '../work/people.ts';
import { millisecondsOf } from './clock.ts';
import { dayView, type Moment } from './day/view.ts';
import type { Device, Message } from './hub/client.ts';
import { wallState } from './hub/wall-view.ts';
import type { LiveLab, OpenRig } from './live-lab.ts';
import { floorView } from './rig/floor-view.ts';
import { rigView } from './rig/rig-view.ts';
import { weightMayShow } from './telling.ts';

/** What the screens are shown of a live lab, as it stands now. Changes nothing. */
export class Views {
  readonly #live: LiveLab;

  constructor(live: LiveLab) {
    this.#live = live;
  }

  day(): Day | undefined {
    return this.#live.loaded === undefined ? undefined : dayView(this.#live.loaded, this.moment());
  }

  /** The day without total peaks of people whose weight is not told: with what they pull above standing it would follow. */
  dayForFloors(): Day | undefined {
    const day = this.day();
    const people = new Map(this.#live.loaded?.entries.map(({ entry, person }) => [entry.id, person]));
    const open = (entry: string) => {
      const person = people.get(entry);
      return person !== undefined && weightMayShow(this.#live.settings.bodyWeight, person, this.#live.today);
    };
    return (
      day && {
        ...day,
        entries: day.entries.map((entry) =>
          open(entry.id) ? entry : { ...entry, efforts: entry.efforts.map(({ peakForce: _, ...rest }) => rest) },
        ),
      }
    );
  }

  moment(): Moment {
    const dayRigs = this.#live.loaded?.day.rigs ?? [];
    return {
      now: this.#live.now,
      onRig: new Map([...this.#live.turns].map(([rig, { view }]) => [rig, view.entry])),
      rigs: [...this.#live.rigs.keys()].filter((id) => dayRigs.length === 0 || dayRigs.includes(id)),
      secondsSince: ({ origin, endSample }) => {
        const rig = [...this.#live.rigs.values()].find(({ runtime }) => runtime.journal.capture === origin.capture);
        if (rig !== undefined && !rig.runtime.files)
          return (rig.runtime.stream.next - endSample) / rig.runtime.stream.rate;
        return (this.#live.now - Date.parse(origin.endedAt)) / 1000;
      },
      unkept: (entry) => this.#live.efforts.unkeptOf(entry),
      awake: this.#live.awake.state,
    };
  }

  wall() {
    const inputs = [...this.#live.rigs.values()].map(({ record, runtime }) => ({
      rig: record,
      runtime,
      turn: this.#live.turns.get(record.id),
      shown: this.#live.efforts.shown(record.id),
    }));
    return wallState(inputs, this.day(), this.#live.blank, (entry) => this.wallNameOf(entry));
  }

  wallNameOf(entry: string): string {
    const person = this.#live.loaded?.entries.find((one) => one.entry.id === entry)?.person;
    if (person === undefined) return '';
    switch (this.#live.loaded?.settings.wallNames) {
      case 'name':
        return nameOf(person);
      case 'code':
        return person.code;
      default:
        return person.givenName;
    }
  }

  floor({ record, runtime }: OpenRig): RigFloor {
    const turn = this.#live.turns.get(record.id);
    const film = turn && this.#live.videos.filming.of(record.id, turn, this.#live.loaded);
    return { ...floorView(runtime, turn), ...(film === undefined ? {} : { film: { ...film } }) };
  }

  rigView({ record, runtime, sources }: OpenRig): RigView {
    return rigView(record, runtime, sources, this.#live.ports.clock, this.#live.checks.get(record.id));
  }

  /** The first message of a client, and the one after it was behind. */
  snapshot(device: Device): Message {
    if (device.role === 'wall') return this.wall();
    const { clock } = this.#live.ports;
    const day = this.dayForFloors();
    return {
      type: 'snapshot',
      protocol: liveProtocol,
      clock: { monotonic: millisecondsOf(clock.monotonic()), wall: clock.wall() },
      lab: this.#live.lab.id,
      you: { device: device.id, name: device.name, role: device.role },
      controls: this.#live.controls.view,
      wallBlank: this.#live.blank,
      ...(day === undefined ? {} : { day }),
      rigs: [...this.#live.rigs.values()].map((one) => this.rigView(one)),
      floors: [...this.#live.rigs.values()].map((one) => this.floor(one)),
      alerts: this.#live.alerts.list,
      questions: [...this.#live.questions.values()].map(({ view }) => view),
      verdicts: this.#live.efforts.verdicts,
    } as Message;
  }
}
