// A small client of the live interface: it follows a test day and, with --guide, takes the controls and runs one guided turn.
//
//   node docs/examples/live-client.mjs http://127.0.0.1:7310           follows until Ctrl-C
//   node docs/examples/live-client.mjs http://127.0.0.1:7310 --guide   runs the turn of whoever is next, ends after its verdict
//
// The interface: docs/reference/live-interface.md. Needs Node 20 and the package "ws".
import { hostname } from 'node:os';
import { parseArgs } from 'node:util';
import WebSocket from 'ws';

const { positionals, values } = parseArgs({
  allowPositionals: true,
  options: { guide: { type: 'boolean', default: false }, lab: { type: 'string', default: 'lab' } },
});
const address = new URL('/api/live', positionals[0] ?? 'http://127.0.0.1:7310');
address.protocol = 'ws:';
const me = { id: `example-${hostname()}`.replace(/[^A-Za-z0-9_-]/g, '-').slice(0, 64), name: 'Example client' };
const role = values.guide ? 'operator' : 'viewer';

/** The state as the station tells it, by rig. */
const state = { day: undefined, controls: {}, floors: new Map(), letters: new Map(), questions: new Map() };
let socket;
let sequence = 0;
let failures = 0;

function connect() {
  socket = new WebSocket(address, { perMessageDeflate: false });
  sequence = 0;
  socket.on('open', () => {
    send({ type: 'hello', protocol: 1, lab: values.lab, role, device: me, by: 'Example' });
    probe();
  });
  socket.on('message', (data) => take(JSON.parse(String(data))));
  socket.on('error', (error) => console.error(`no connection: ${error.message}`));
  socket.on('close', (code) => {
    if (finished) return;
    console.error(`the connection is closed (${code})`);
    // 4004: there is no such lab yet; 4001: another version. Trying again would not help.
    if (code === 4004 || code === 4001) process.exit(1);
    failures++;
    setTimeout(connect, Math.min(4000, 250 * 2 ** failures));
  });
}

const send = (message) => {
  // What cannot be sent now is lost on purpose: a command is never carried out late.
  if (socket.readyState === WebSocket.OPEN) socket.send(JSON.stringify(message));
};

/** One message. Numbers follow one another; one is missing only where `behind` says that it was left out. */
function take(message) {
  const whole = message.type === 'behind' || message.type === 'snapshot';
  if (!whole && message.sequence !== sequence + 1) return socket.terminate();
  sequence = message.sequence;
  handle[message.type]?.(message);
}

const handle = {
  snapshot(message) {
    if (message.protocol !== 1) {
      console.error('The station speaks another version of the live interface.');
      process.exit(1);
    }
    failures = 0;
    state.day = message.day;
    state.controls = message.controls;
    state.letters = new Map(message.rigs.map((rig) => [rig.id, rig.letter]));
    state.floors = new Map(message.floors.map((floor) => [floor.rig, floor]));
    state.questions = new Map(message.questions.map((question) => [question.id, question]));
    console.log(`snapshot: ${message.day?.title || 'no open day'}, ${message.rigs.length} rigs`);
    if (values.guide) send({ type: 'take-controls' });
  },
  rig: ({ rig }) => state.letters.set(rig.id, rig.letter),
  day: ({ day }) => {
    state.day = day;
  },
  phase({ floor }) {
    const before = state.floors.get(floor.rig);
    state.floors.set(floor.rig, floor);
    const same = before?.phase === floor.phase && before.now.code === floor.now.code;
    if (same && before.turn?.id === floor.turn?.id) return;
    const who = floor.turn === undefined ? '' : ` ${floor.turn.person.name}, ${floor.turn.words}`;
    console.log(`rig ${state.letters.get(floor.rig)}: ${floor.phase}${who} - ${floor.now.words}`);
  },
  envelope({ rig, rate, bucket, first, total }) {
    // Pairs of smallest and largest force; null where a sample is missing. A real client would draw them.
    const highest = Math.max(...total.filter((value) => value !== null));
    const end = first + (bucket * total.length) / 2;
    if (Math.floor(end / rate) !== Math.floor(first / rate) && Number.isFinite(highest))
      console.log(`rig ${state.letters.get(rig)}: ${highest.toFixed(0)} N at ${(end / rate).toFixed(1)} s`);
  },
  cue({ id, sound, words, at, expires }) {
    // Due now, or not at all.
    if (offset === undefined || stationNow() - at > expires) return;
    console.log(`\u0007${words}`);
    if (values.guide && sound === 'go') send({ type: 'cue-sounded', cue: id, at: performance.now() });
  },
  question({ question }) {
    state.questions.set(question.id, question);
    console.log(`question: ${question.words} ${question.choices.map(({ words }) => words).join(' / ')}`);
  },
  'question-over': ({ id }) => state.questions.delete(id),
  controls({ controls }) {
    state.controls = controls;
    console.log(`controls: ${controls.name ?? 'nobody'}`);
  },
  verdict({ verdict }) {
    const [value] = verdict.values;
    const number = value === undefined ? '' : `, ${value.words} ${value.value.toFixed(0)} ${value.unit}`;
    console.log(`verdict: ${verdict.person.name}, ${verdict.verdict}${number}. ${verdict.say}`);
    if (verdict.turn === guided) judged = true;
  },
  alert: ({ alert }) => console.log(`${alert.severity}: ${alert.words} ${alert.next}`),
  behind: ({ skipped }) => console.log(`${skipped} messages were left out; the whole state follows`),
  accepted: ({ id }) => answered(id),
  refused({ id, code, words, next }) {
    console.log(`refused (${code}): ${words} ${next}`);
    answered(id);
  },
  probe: ({ t0, t1, t2 }) => probed(t0, t1, t2),
};

// The clock of the station: command times and heard cues need it.

let readings = [];
let offset;
let probes = 0;
const stationNow = () => performance.now() + offset;

function probe() {
  const last = best();
  send({ type: 'probe', id: `p${++probes}`, t0: performance.now(), ...(last === undefined ? {} : { last }) });
  // A few in a row at the start, then every four seconds.
  setTimeout(probe, probes < 5 ? 100 : 4000).unref();
}

function probed(t0, t1, t2) {
  const t3 = performance.now();
  readings = [...readings, { offset: (t1 - t0 + (t2 - t3)) / 2, roundTrip: Math.max(0, t3 - t0 - (t2 - t1)) }].slice(
    -8,
  );
  offset = best().offset;
}

const best = () =>
  readings.reduce((least, one) => (least === undefined || one.roundTrip < least.roundTrip ? one : least), undefined);

// One guided turn.

let guided;
let judged = false;
let finished = false;
let commands = 0;
const waiting = new Map();

/** Gives a command for what is shown now; resolves when it was answered, or nobody answered within 1.5 s. */
function command(floor, kind, more = {}) {
  const id = `c${++commands}`;
  const { rig, phase, turn, trial } = floor;
  send({
    type: 'command',
    id,
    kind,
    rig,
    ...(turn === undefined ? {} : { turn: turn.id }),
    ...(trial === undefined ? {} : { trial }),
    phase,
    at: stationNow(),
    expires: 1000,
    ...more,
  });
  return new Promise((done) => {
    waiting.set(id, done);
    setTimeout(() => answered(id), 1500);
  });
}

function answered(id) {
  waiting.get(id)?.();
  waiting.delete(id);
}

/** What a person at a screen would do: whoever is next, set up, cue when steady, and the end after the verdict. */
async function guide() {
  const next = state.day?.next[0];
  const rig = next?.rig ?? [...state.floors.keys()][0];
  const floor = state.floors.get(guidedRig() ?? rig);
  if (floor === undefined || offset === undefined || state.controls.holder !== me.id) return;
  for (const question of state.questions.values()) {
    // Only a person can answer; this example takes the first choice.
    send({ type: 'answer', id: `a${++commands}`, question: question.id, choice: question.choices[0].id });
    return;
  }
  if (guided === undefined) {
    if (floor.turn !== undefined) guided = floor.turn.id;
    else if (next !== undefined) await command(floor, 'begin', { entry: next.entry });
  } else if (judged && floor.turn?.id === guided && !['cue', 'pull'].includes(floor.phase))
    await command(floor, 'finish');
  else if (judged) {
    finished = true;
    send({ type: 'release-controls' });
    socket.close();
  } else if (floor.phase === 'set-up') await command(floor, 'advance');
  else if (floor.phase === 'ready') await command(floor, 'cue');
}

const guidedRig = () => [...state.floors.values()].find(({ turn }) => turn !== undefined && turn.id === guided)?.rig;

connect();
if (values.guide)
  while (!finished) {
    await new Promise((done) => setTimeout(done, 100));
    await guide();
  }
