import { rigWords } from '../../../words/rig.ts';
import type { SourceForm, TransportKind } from './source-form.ts';

const t = rigWords.transport;

/** One field of a way bytes come in: a text, a number, one of some, or a yes. */
export interface TransportField {
  /** Name in the form and in the description's transport. */
  readonly name: string;
  readonly label: string;
  readonly number?: true;
  /** What may be chosen; nothing else can stand there. */
  readonly options?: Readonly<Record<string, string>>;
  /** What is usual; something else can be written. */
  readonly list?: readonly string[];
  readonly tick?: true;
  readonly help?: string;
}

const rates = ['9600', '57600', '115200', '230400', '460800', '921600'];
const startBytes: TransportField = { name: 'startBytes', label: t.startBytes };
const host: TransportField = { name: 'host', label: t.host };
const port: TransportField = { name: 'port', label: t.port, number: true };

/** The fields of each transport, in their order. */
export const transportFields: Readonly<Record<TransportKind, readonly TransportField[]>> = {
  serial: [
    { name: 'path', label: t.path },
    { name: 'baudRate', label: t.baudRate, number: true, list: rates },
    { name: 'dataBits', label: t.dataBits, options: { '': t.usual, 8: '8', 7: '7' } },
    { name: 'parity', label: t.parity, options: { '': t.usual, ...t.parities } },
    { name: 'stopBits', label: t.stopBits, options: { '': t.usual, 1: '1', 2: '2' } },
    { name: 'serialNumber', label: t.serialNumber },
    startBytes,
  ],
  tcp: [{ name: 'mode', label: t.mode, options: t.modes }, host, port, startBytes],
  udp: [host, port],
  stream: [
    { name: 'name', label: t.streamName },
    { name: 'type', label: t.streamType },
    { name: 'sourceId', label: t.sourceId, help: t.sourceIdHelp },
    { name: 'host', label: t.streamHost, help: t.streamHostHelp },
    { name: 'port', label: t.streamPort, number: true },
  ],
  folder: [
    { name: 'path', label: t.folder, help: t.folderHelp },
    { name: 'pattern', label: t.pattern },
  ],
  replay: [
    { name: 'file', label: t.file },
    { name: 'speed', label: t.speed, number: true },
    { name: 'repeat', label: t.repeat, tick: true },
  ],
  virtual: [
    { name: 'script', label: t.script, options: t.scripts },
    { name: 'seed', label: t.seed, number: true },
    { name: 'speed', label: t.virtualSpeed, number: true },
  ],
};

/** The part of a form that a transport's fields stand in, with some of them changed. */
export const withTransport = (form: SourceForm, part: Readonly<Record<string, string | boolean>>): SourceForm => ({
  ...form,
  [form.kind]: { ...form[form.kind], ...part },
});
