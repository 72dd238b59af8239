/** A source description while it is being written: every field a text, so that half a number can stand in its field. */
export interface SourceForm {
  readonly name: string;
  readonly rate: string;
  readonly notes: string;
  readonly kind: TransportKind;
  /** Texts of every transport, so that switching to and fro loses nothing. */
  readonly serial: {
    path: string;
    baudRate: string;
    dataBits: string;
    parity: string;
    stopBits: string;
    serialNumber: string;
    startBytes: string;
  };
  readonly tcp: { mode: string; host: string; port: string; startBytes: string };
  readonly udp: { host: string; port: string };
  /** `labels` come from the stream itself, not from fields. */
  readonly stream: {
    name: string;
    type: string;
    sourceId: string;
    host: string;
    port: string;
    labels: readonly string[];
  };
  readonly folder: { path: string; pattern: string };
  readonly replay: { file: string; speed: string; repeat: boolean };
  readonly virtual: { script: string; seed: string; speed: string };
  readonly layout: LayoutForm;
  readonly channels: readonly ChannelForm[];
  readonly calibration: readonly CalibrationForm[];
}

export const transportKinds = ['serial', 'tcp', 'udp', 'stream', 'folder', 'replay', 'virtual'] as const;
export type TransportKind = (typeof transportKinds)[number];

/** Sources that send bytes and therefore need a layout; the others bring their own. */
export const needsLayout = (kind: TransportKind): boolean => kind === 'serial' || kind === 'tcp' || kind === 'udp';

/** Virtual plates send forces; every other source may send signals that a matrix makes forces of. */
export const mayCalibrate = (kind: TransportKind): boolean => kind !== 'virtual';

export interface LayoutForm {
  readonly kind: 'lines' | 'frames';
  readonly delimiter: string;
  readonly decimal: string;
  readonly comment: string;
  readonly fields: readonly FieldForm[];
  readonly sync: string;
  readonly endian: string;
  readonly head: readonly FieldForm[];
  readonly sample: readonly FieldForm[];
  readonly samples: string;
  readonly checksum: ChecksumForm;
}

export interface FieldForm {
  readonly role: string;
  readonly channel: string;
  readonly unit: string;
  readonly wrapsAt: string;
  readonly step: string;
  readonly type: string;
}

export interface ChecksumForm {
  readonly kind: string;
  readonly withSync: boolean;
  readonly polynomial: string;
  readonly initial: string;
  readonly reflected: boolean;
  readonly finalXor: string;
  readonly endian: string;
}

export interface ChannelForm {
  readonly name: string;
  readonly plate: string;
  readonly side: string;
  readonly axis: string;
  readonly unit: string;
  readonly scale: string;
  readonly offset: string;
  readonly low: string;
  readonly high: string;
  readonly surface?: SurfaceForm;
}

/** Where the surface of a plate of six components lies: three numbers, and a line of three for each corner. */
export interface SurfaceForm {
  readonly origin: string;
  readonly corners: string;
}

/** A matrix as it was pasted, the signals of its columns, and what its rows make. */
export interface CalibrationForm {
  readonly signals: readonly string[];
  readonly matrix: string;
  readonly channels: readonly MadeForm[];
}

export type MadeForm = Pick<ChannelForm, 'name' | 'plate' | 'side' | 'axis' | 'unit' | 'surface'>;

export const emptyField: FieldForm = {
  role: 'channel',
  channel: '',
  unit: 's',
  wrapsAt: '',
  step: '',
  type: 'i16',
};

export const channelForm = (name: string, side: string): ChannelForm => ({
  name,
  plate: name,
  side,
  axis: 'z',
  unit: 'N',
  scale: '1',
  offset: '0',
  low: '',
  high: '',
});

const two = [
  { ...emptyField, channel: 'left' },
  { ...emptyField, channel: 'right' },
];

/** Where one begins: two plates as text lines on a serial port. */
export const emptyForm: SourceForm = {
  name: '',
  rate: '1000',
  notes: '',
  kind: 'serial',
  serial: {
    path: '',
    baudRate: '115200',
    dataBits: '',
    parity: '',
    stopBits: '',
    serialNumber: '',
    startBytes: '',
  },
  tcp: { mode: 'connect', host: '127.0.0.1', port: '', startBytes: '' },
  udp: { host: '0.0.0.0', port: '' },
  stream: { name: '', type: '', sourceId: '', host: '', port: '', labels: [] },
  folder: { path: '', pattern: '' },
  replay: { file: '', speed: '1', repeat: false },
  virtual: { script: 'fernwater-three', seed: '1', speed: '1' },
  layout: {
    kind: 'lines',
    delimiter: ',',
    decimal: '',
    comment: '',
    fields: two,
    sync: 'AA55',
    endian: 'little',
    head: [],
    sample: two,
    samples: '1',
    checksum: {
      kind: 'none',
      withSync: false,
      polynomial: '0x1021',
      initial: '0xFFFF',
      reflected: false,
      finalXor: '0x0000',
      endian: '',
    },
  },
  channels: [channelForm('left', 'left'), channelForm('right', 'right')],
  calibration: [],
};
