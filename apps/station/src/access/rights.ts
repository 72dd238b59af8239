import type { ToStation } from '@sthene/contract';

/**
 * Who may do something from another machine, each including the ones before it: `anyone` who reaches the station, a paired
 * `wall`, `viewer` or `operator`, and `station`: only the machine itself, which may do everything.
 */
export const ranks = ['anyone', 'wall', 'viewer', 'operator', 'station'] as const;
export type Rank = (typeof ranks)[number];

export const includes = (has: Rank, needed: Rank): boolean => ranks.indexOf(has) >= ranks.indexOf(needed);

/**
 * The least rank for every address of the interface, in one place. A route that is not listed here cannot be registered, so
 * that nobody opens a new one to the room by forgetting it. A wall sees the wall and nothing else; a viewer reads; an operator
 * runs the day; what changes rigs, sources, methods, devices or the network is done on the station itself.
 */
export const routeRights: Readonly<Record<string, Rank>> = {
  // Public: needed before a device is paired, and they tell nothing about anybody.
  'GET /api/access': 'anyone',
  'POST /api/pair': 'anyone',
  'GET /api/network/sthene-authority.crt': 'anyone',
  'GET /api/network/sthene-authority.mobileconfig': 'anyone',

  'DELETE /api/access': 'wall',
  // What may be said and heard there: `messageRights`, and the role said in `hello`.
  'GET /api/live': 'wall',

  'GET /api': 'viewer',
  'GET /api/openapi.json': 'viewer',
  'GET /api/page.css': 'viewer',
  'GET /api/station': 'viewer',
  'GET /api/labs/:lab/people': 'viewer',
  'GET /api/labs/:lab/people/:id/history': 'viewer',
  'GET /api/labs/:lab/squads': 'viewer',
  'GET /api/labs/:lab/standing': 'viewer',
  'GET /api/labs/:lab/reliability': 'viewer',
  'GET /api/labs/:lab/reliability/rules': 'viewer',
  'GET /api/labs/:lab/follow-rules': 'viewer',
  'GET /api/labs/:lab/today': 'viewer',
  'GET /api/labs/:lab/before': 'viewer',
  'GET /api/labs/:lab/norms': 'viewer',
  'GET /api/labs/:lab/norms/published': 'viewer',
  'GET /api/labs/:lab/norms/published/:id': 'viewer',
  'GET /api/labs/:lab/people/:id/asymmetry': 'viewer',
  'GET /api/labs/:lab/people/:id/battery': 'viewer',
  'GET /api/labs/:lab/people/:id/curves': 'viewer',
  'GET /api/labs/:lab/adoptions': 'viewer',
  'GET /api/labs/:lab/blind-studies': 'viewer',
  'GET /api/labs/:lab/blind-studies/:id': 'viewer',
  'GET /api/labs/:lab/sessions': 'viewer',
  'GET /api/labs/:lab/sessions/:id': 'viewer',
  'GET /api/labs/:lab/sessions/:id/package': 'viewer',
  'GET /api/labs/:lab/trials/:id': 'viewer',
  'GET /api/labs/:lab/trials/:id/curve': 'viewer',
  'GET /api/labs/:lab/trials/:id/pressure': 'viewer',
  'GET /api/labs/:lab/trials/:id/uncertainty': 'viewer',
  'GET /api/labs/:lab/recordings/:id/file': 'viewer',
  'GET /api/labs/:lab/methods': 'viewer',
  'GET /api/labs/:lab/methods/:id': 'viewer',
  'GET /api/labs/:lab/recomputations': 'viewer',
  'GET /api/labs/:lab/recomputations/:id': 'viewer',
  'GET /api/labs/:lab/recomputations/:id/failures': 'viewer',
  'GET /api/labs/:lab/recomputations/:id/flips': 'viewer',
  'GET /api/labs/:lab/recomputations/:id/reports': 'viewer',
  'GET /api/labs/:lab/recomputations/:id/comparison': 'viewer',
  'GET /api/labs/:lab/recomputations/:id/pairs': 'viewer',
  'GET /api/labs/:lab/protocols': 'viewer',
  'GET /api/labs/:lab/protocols/:id': 'viewer',
  'GET /api/labs/:lab/protocols/:id/file': 'viewer',
  'GET /api/labs/:lab/protocols/:id/use': 'viewer',
  'GET /api/labs/:lab/rigs': 'viewer',
  'GET /api/labs/:lab/rigs/:id': 'viewer',
  'GET /api/labs/:lab/rigs/:id/checks': 'viewer',
  'GET /api/labs/:lab/rig-check-settings': 'viewer',
  'GET /api/labs/:lab/floor-settings': 'viewer',
  'GET /api/labs/:lab/days': 'viewer',
  'GET /api/labs/:lab/days/:id': 'viewer',

  'GET /api/labs/:lab/report-appearance': 'viewer',

  // What is handed out leaves the lab; whoever only looks on hands nothing out.
  'GET /api/labs/:lab/reports/:kind': 'operator',
  'GET /api/labs/:lab/reports/:kind/content': 'operator',
  'POST /api/labs/:lab/people': 'operator',
  // They store nothing, but make the station compute.
  'POST /api/labs/:lab/methods/preview': 'operator',
  'POST /api/labs/:lab/methods/nearest': 'operator',
  'POST /api/labs/:lab/trials/:id/decisions': 'operator',
  'POST /api/labs/:lab/trials/:id/undo': 'operator',
  'POST /api/labs/:lab/trials/:id/redo': 'operator',
  'PUT /api/labs/:lab/trials/:id/person': 'operator',
  'GET /api/labs/:lab/uploads': 'operator',
  'POST /api/labs/:lab/uploads': 'operator',
  'GET /api/labs/:lab/uploads/:id/file': 'operator',
  'DELETE /api/labs/:lab/uploads/:id': 'operator',
  'POST /api/labs/:lab/imports/dry-run': 'operator',
  'POST /api/labs/:lab/imports': 'operator',
  'GET /api/labs/:lab/import-templates': 'operator',
  'POST /api/labs/:lab/received/table': 'operator',
  'POST /api/labs/:lab/received/dry-run': 'operator',
  'POST /api/labs/:lab/received': 'operator',
  'GET /api/labs/:lab/received': 'operator',
  'POST /api/labs/:lab/received/:id/take-back': 'operator',
  'GET /api/labs/:lab/received/:id/file': 'operator',
  // Everything at once, names too where they are asked for.
  'GET /api/labs/:lab/exchange.csv': 'operator',
  'GET /api/labs/:lab/outlet': 'operator',
  'GET /api/labs/:lab/rigs/:id/outlet': 'operator',
  'GET /api/labs/:lab/sources': 'operator',
  'POST /api/labs/:lab/rigs/:id/open': 'operator',
  'POST /api/labs/:lab/rigs/:id/close': 'operator',
  'POST /api/labs/:lab/rigs/:id/keep': 'operator',
  'POST /api/labs/:lab/rigs/:id/trouble': 'operator',
  'GET /api/labs/:lab/rigs/:id/check/now': 'operator',
  'POST /api/labs/:lab/rigs/:id/check': 'operator',
  'POST /api/labs/:lab/rigs/:id/check/readings': 'operator',
  'DELETE /api/labs/:lab/rigs/:id/check/readings': 'operator',
  'POST /api/labs/:lab/rigs/:id/check/extras': 'operator',
  'POST /api/labs/:lab/rigs/:id/check/masses': 'operator',
  'POST /api/labs/:lab/rigs/:id/check/virtual': 'operator',
  'POST /api/labs/:lab/rigs/:id/check/finish': 'operator',
  'DELETE /api/labs/:lab/rigs/:id/check': 'operator',
  'GET /api/labs/:lab/rigs/:id/correction-effect': 'operator',
  'GET /api/labs/:lab/sources/:id/history': 'operator',
  'POST /api/labs/:lab/days': 'operator',
  'PUT /api/labs/:lab/days/:id': 'operator',
  'POST /api/labs/:lab/days/:id/open': 'operator',
  'POST /api/labs/:lab/days/:id/close': 'operator',
  'PUT /api/labs/:lab/days/:id/order': 'operator',
  'POST /api/labs/:lab/days/:id/entries': 'operator',
  'PUT /api/labs/:lab/entries/:id': 'operator',
  'DELETE /api/labs/:lab/entries/:id': 'operator',
  // Films show people: whoever only looks on does not see them, and a camera is a device that was paired as an operator's.
  'GET /api/labs/:lab/video-settings': 'operator',
  'GET /api/labs/:lab/trials/:id/videos': 'operator',
  'GET /api/labs/:lab/videos/:id': 'operator',
  'GET /api/labs/:lab/videos/:id/file': 'operator',
  'PUT /api/labs/:lab/videos/:id': 'operator',
  'PUT /api/labs/:lab/videos/:id/chunks/:index': 'operator',
  'POST /api/labs/:lab/videos/:id/finish': 'operator',
  'DELETE /api/labs/:lab/videos/:id': 'operator',
  'PUT /api/labs/:lab/videos/:id/nudge': 'operator',
  'POST /api/labs/:lab/videos/:id/drop': 'operator',
  // Clearances and pain are about health: whoever only looks on does not see them in full.
  'GET /api/labs/:lab/people/:id/gates': 'operator',
  'POST /api/labs/:lab/people/:id/gates': 'operator',
  'POST /api/labs/:lab/gates/:id/release': 'operator',
  // So are injuries, and whatever else is written down of a person.
  'GET /api/labs/:lab/people/:id/notes': 'operator',
  'POST /api/labs/:lab/people/:id/notes': 'operator',
  'PUT /api/labs/:lab/notes/:id': 'operator',
  'POST /api/labs/:lab/notes/:id/take-back': 'operator',
  'GET /api/labs/:lab/people/:id/return': 'operator',
  'POST /api/labs/:lab/blind-studies': 'operator',
  'GET /api/labs/:lab/blind-studies/:id/next': 'operator',
  'POST /api/labs/:lab/blind-studies/:id/readings': 'operator',
  'POST /api/labs/:lab/blind-studies/:id/close': 'operator',

  'POST /api/labs/:lab': 'station',
  'GET /api/labs/:lab/audit': 'station',
  // Sets a rig up.
  'POST /api/labs/:lab/practice': 'station',
  // For how long people's films are kept, and whether minors are filmed.
  'PUT /api/labs/:lab/video-settings': 'station',
  // These make the station open ports and connections.
  'GET /api/serial-ports': 'station',
  'GET /api/labs/:lab/streams': 'station',
  'POST /api/labs/:lab/sources/probe': 'station',
  'POST /api/labs/:lab/sources/listen/:id': 'station',
  'DELETE /api/labs/:lab/sources/listen/:id': 'station',
  'POST /api/labs/:lab/sources/check': 'station',
  'POST /api/labs/:lab/sources': 'station',
  'PUT /api/labs/:lab/sources/:id': 'station',
  // By which method a lab judges changes every number it has handed out.
  'POST /api/labs/:lab/methods': 'station',
  'POST /api/labs/:lab/recomputations': 'station',
  'POST /api/labs/:lab/recomputations/:id/pause': 'station',
  'POST /api/labs/:lab/recomputations/:id/resume': 'station',
  'POST /api/labs/:lab/recomputations/:id/adopt': 'station',
  'POST /api/labs/:lab/recomputations/:id/discard': 'station',
  'POST /api/labs/:lab/protocols': 'station',
  'POST /api/labs/:lab/protocols/:id/versions': 'station',
  'POST /api/labs/:lab/protocols/:id/archive': 'station',
  'POST /api/labs/:lab/protocols/:id/duplicate': 'station',
  'POST /api/labs/:lab/protocols/import': 'station',
  // By what everybody of a squad is judged.
  'PUT /api/labs/:lab/follow-rules': 'station',
  'POST /api/labs/:lab/adoptions': 'station',
  'POST /api/labs/:lab/adoptions/:id/end': 'station',
  // The name and the logo under which every page leaves, and how somebody of unknown age is reported.
  'PUT /api/labs/:lab/report-appearance': 'station',
  // Whose weight leaves the station is no decision for a tablet.
  'PUT /api/labs/:lab/floor-settings': 'station',
  // What plates are held to, and a correction that changes every later number.
  'PUT /api/labs/:lab/rig-check-settings': 'station',
  'POST /api/labs/:lab/rigs/:id/corrections': 'station',
  'POST /api/labs/:lab/rigs/:id/correction-effect': 'station',
  // What leaves the station for other programs, and how far.
  'PUT /api/labs/:lab/outlet': 'station',
  'PUT /api/labs/:lab/rigs/:id/outlet': 'station',
  'POST /api/labs/:lab/rigs': 'station',
  'PUT /api/labs/:lab/rigs/:id': 'station',
  'GET /api/labs/:lab/devices': 'station',
  'POST /api/labs/:lab/devices/codes': 'station',
  'DELETE /api/labs/:lab/devices/codes/:id': 'station',
  'PUT /api/labs/:lab/devices/:id': 'station',
  'POST /api/labs/:lab/devices/:id/revoke': 'station',
  'GET /api/network': 'station',
  'PUT /api/network': 'station',
};

/** Files of the web app: everything outside `/api`. They are the same on every station and hold no data. */
export const isWebApp = (path: string): boolean => path !== '/api' && !path.startsWith('/api/');

/** The rank a registered route needs; undefined: nobody has decided it. */
export function rankOf(method: string, path: string): Rank | undefined {
  if (isWebApp(path)) return 'anyone';
  return routeRights[`${method === 'HEAD' ? 'GET' : method} ${path}`];
}

/** The addresses a rank includes, for screens that should offer nothing else. */
export const addressesOf = (rank: Rank): string[] =>
  Object.entries(routeRights).flatMap(([address, needed]) => (includes(rank, needed) ? [address] : []));

/** The least rank for every live message; the type makes a new message a fault until it stands here. */
export const messageRights: Readonly<Record<ToStation['type'], Rank>> = {
  hello: 'wall',
  probe: 'wall',
  // A wall says when it showed a cue.
  'cue-sounded': 'wall',
  'take-controls': 'operator',
  'release-controls': 'operator',
  command: 'operator',
  answer: 'operator',
};
