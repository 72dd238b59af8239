import { type VirtualScript, virtualDescription } from '@sthene/capture';
import { type Call, call, type Day, type DayDraft, liveRoutes, type Route, routes } from '@sthene/contract';
import { type StationUnderTest, stationUnderTest } from './station-under-test.ts';

/** What can be done to virtual plates that a test plays by hand. */
export type PlateAct =
  | { readonly act: 'stepOn'; readonly person: number }
  | { readonly act: 'stepOff' }
  | { readonly act: 'takeBar'; readonly newtons: number }
  | { readonly act: 'cue'; readonly aim?: number }
  /** A fault of the line that begins so many samples from now. */
  | { readonly act: 'disturb'; readonly fault: object; readonly after: number };

export interface PlayedPerson {
  readonly givenName: string;
  readonly familyName: string;
  readonly birthDate: string;
  /** On record; given when absent. */
  readonly consent?: boolean;
}

export interface PlayedOptions {
  readonly script: VirtualScript;
  /** Times real time; 1 when absent. */
  readonly speed?: number;
  readonly people?: readonly PlayedPerson[];
  /** Rigs A, B, ...; one when absent. */
  readonly rigs?: number;
  readonly day?: Partial<DayDraft>;
  /** Added to the browser's usual ones. */
  readonly browserArguments?: readonly string[];
}

/** A lab with people, rigs on virtual plates and an open day. */
export interface PlayedLab extends StationUnderTest {
  readonly day: Day;
  readonly rig: string;
  ask<P, Q, B, R>(route: Route<P, Q, B, R>, input?: Call<P, Partial<Q>, Partial<B>>): Promise<R>;
  plates(act: PlateAct): void;
}

/** Invented rowers of the club Fernwater. */
export const crew: readonly PlayedPerson[] = [
  { givenName: 'Wren', familyName: 'Alder', birthDate: '1999-04-01' },
  { givenName: 'Heron', familyName: 'Birch', birthDate: '1998-02-11' },
  { givenName: 'Otter', familyName: 'Cole', birthDate: '1997-08-21' },
];

export const by = 'Rowan';
const lab = { lab: 'lab' as const };

/** As the usual program, with scripts of the test's own and their plates played by lines on standard input. */
const program = (script: VirtualScript) => `
  import { createInterface } from 'node:readline';
  const { startStation } = await import(process.env.STATION);
  const { stationPorts } = await import(new URL('./live/station-ports.js', process.env.STATION));
  const { createRig } = await import(new URL('../../../packages/capture/dist/index.js', process.env.STATION));
  const script = ${JSON.stringify(script)};
  const running = [];
  const schedule = (tick, every) => { const timer = setInterval(tick, every); return () => clearInterval(timer); };
  const ports = {
    ...stationPorts,
    createSource(id, descriptions) {
      const made = createRig(descriptions, { id, clock: stationPorts.clock, schedule, scripts: { played: script } });
      running.push(made);
      return made;
    },
  };
  createInterface({ input: process.stdin }).on('line', (line) => {
    const { act, person, newtons, aim, fault, after } = JSON.parse(line);
    const plates = running.at(-1);
    if (act === 'stepOn') plates.stepOn(person);
    else if (act === 'takeBar') plates.takeBar(newtons);
    else if (act === 'cue') plates.cue(aim);
    else if (act === 'disturb') plates.disturb({ ...fault, from: plates.position + after });
    else plates.stepOff();
  });
  const station = await startStation({ port: Number(process.env.PORT ?? 0), data: process.env.DATA, webFolder: process.env.WEB, ports });
  console.log(station.address);
  await station.stopped(['SIGTERM']);
  process.exit(0);
`;

/** Starts a station, sets up lab, people and rigs, and opens a day with them. */
export async function playedLab(options: PlayedOptions): Promise<PlayedLab> {
  const station = await stationUnderTest(program(options.script), options.browserArguments);
  const base = station.address.replace(/\/$/, '');
  const ask: PlayedLab['ask'] = (route, input) =>
    call((url, init) => fetch(url, init as RequestInit), base, route as never, input as never);
  await ask(routes.createLab, { params: lab, body: {} });
  const people: string[] = [];
  for (const person of options.people ?? crew) people.push(await addPerson(ask, person));
  const rigs: string[] = [];
  for (let i = 0; i < (options.rigs ?? 1); i++) rigs.push(await addRig(ask, i, options.speed ?? 1));
  const draft = await ask(liveRoutes.createDay, {
    params: lab,
    body: {
      date: new Date().toISOString().slice(0, 10),
      title: 'Winter test, first boat',
      tests: [{ test: 'imtp', efforts: twoMaximal, rest: { minimum: 20, maximum: 600 } }],
      rigs,
      people,
      handsFree: false,
      by,
      ...options.day,
    } as never,
  });
  const day = await ask(liveRoutes.openDay, { params: { ...lab, id: draft.id }, body: { by } });
  return {
    ...station,
    day,
    rig: rigs[0] as string,
    ask,
    plates: (act) => station.tell(JSON.stringify(act)),
  };
}

const twoMaximal = [{ kind: 'maximal' as const }, { kind: 'maximal' as const }];

async function addPerson(ask: PlayedLab['ask'], { consent = true, ...person }: PlayedPerson): Promise<string> {
  const { id } = await ask(routes.createPerson, { params: lab, body: { ...person } });
  for (const kind of consent ? (['screening', 'consent'] as const) : (['screening'] as const))
    await ask(liveRoutes.addGate, {
      params: { ...lab, id },
      body: { kind, granted: true, limb: 'both', from: '2026-01-01', note: '', by },
    });
  return id;
}

const shapes = ['circle', 'square', 'triangle', 'diamond'] as const;

async function addRig(ask: PlayedLab['ask'], i: number, speed: number): Promise<string> {
  const letter = String.fromCharCode(65 + i);
  const description = virtualDescription(`Virtual plates ${letter}`, 'played', 7 + i, speed);
  const source = await ask(liveRoutes.createSource, {
    params: lab,
    body: { description: JSON.parse(JSON.stringify(description)), by },
  });
  const shape = shapes[i % shapes.length] ?? 'circle';
  const body = { name: `Rig ${letter}`, letter, shape, sources: [source.id], notes: '', by };
  return (await ask(liveRoutes.createRig, { params: lab, body })).id;
}
