import { useQuery } from '@tanstack/react-query';
import { useId } from 'react';
import { serialPortsQuery } from '../../../data/rigs.ts';
import { rigWords } from '../../../words/rig.ts';
import { ChoiceField, TextField } from './parts.tsx';
import { type SourceForm, transportKinds } from './source-form.ts';

interface TransportProps {
  readonly form: SourceForm;
  setForm(form: SourceForm): void;
}

/** How the bytes come in. */
export function TransportPart({ form, setForm }: TransportProps) {
  const id = useId();
  return (
    <section className="panel">
      <fieldset>
        <legend>{rigWords.source.how}</legend>
        <div className="kinds">
          {transportKinds.map((kind) => (
            <label key={kind} className="check-line">
              <input
                type="radio"
                name={`${id}kind`}
                checked={form.kind === kind}
                onChange={() => setForm({ ...form, kind })}
              />
              {rigWords.sources.kinds[kind]}
            </label>
          ))}
        </div>
      </fieldset>
      <div className="field-grid">
        <Fields form={form} setForm={setForm} />
      </div>
    </section>
  );
}

function Fields({ form, setForm }: TransportProps) {
  const t = rigWords.transport;
  const { kind } = form;
  switch (kind) {
    case 'serial':
      return <Serial form={form} setForm={setForm} />;
    case 'tcp': {
      const set = (part: Partial<SourceForm['tcp']>) => setForm({ ...form, tcp: { ...form.tcp, ...part } });
      const { mode, host, port, startBytes } = form.tcp;
      return (
        <>
          <ChoiceField
            label={t.mode}
            path="transport.mode"
            value={mode}
            options={t.modes}
            onChange={(value) => set({ mode: value })}
          />
          <TextField label={t.host} path="transport.host" value={host} onChange={(value) => set({ host: value })} />
          <TextField
            label={t.port}
            path="transport.port"
            number
            value={port}
            onChange={(value) => set({ port: value })}
          />
          <TextField
            label={t.startBytes}
            path="transport.startBytes"
            value={startBytes}
            onChange={(value) => set({ startBytes: value })}
          />
        </>
      );
    }
    case 'udp': {
      const set = (part: Partial<SourceForm['udp']>) => setForm({ ...form, udp: { ...form.udp, ...part } });
      return (
        <>
          <TextField label={t.host} path="transport.host" value={form.udp.host} onChange={(host) => set({ host })} />
          <TextField
            label={t.port}
            path="transport.port"
            number
            value={form.udp.port}
            onChange={(port) => set({ port })}
          />
        </>
      );
    }
    case 'folder': {
      const set = (part: Partial<SourceForm['folder']>) => setForm({ ...form, folder: { ...form.folder, ...part } });
      const { path, pattern } = form.folder;
      return (
        <>
          <TextField label={t.folder} path="transport.path" value={path} onChange={(value) => set({ path: value })} />
          <TextField
            label={t.pattern}
            path="transport.pattern"
            value={pattern}
            onChange={(value) => set({ pattern: value })}
          />
        </>
      );
    }
    case 'replay': {
      const set = (part: Partial<SourceForm['replay']>) => setForm({ ...form, replay: { ...form.replay, ...part } });
      const { file, speed, repeat } = form.replay;
      return (
        <>
          <TextField label={t.file} path="transport.file" value={file} onChange={(value) => set({ file: value })} />
          <TextField
            label={t.speed}
            path="transport.speed"
            number
            value={speed}
            onChange={(value) => set({ speed: value })}
          />
          <label className="check-line">
            <input type="checkbox" checked={repeat} onChange={(event) => set({ repeat: event.target.checked })} />
            {t.repeat}
          </label>
        </>
      );
    }
    case 'virtual': {
      const set = (part: Partial<SourceForm['virtual']>) => setForm({ ...form, virtual: { ...form.virtual, ...part } });
      const { script, seed, speed } = form.virtual;
      return (
        <>
          <TextField
            label={t.script}
            path="transport.script"
            list={['fernwater-three', 'fernwater-three-with-faults']}
            value={script}
            onChange={(value) => set({ script: value })}
          />
          <TextField
            label={t.seed}
            path="transport.seed"
            number
            value={seed}
            onChange={(value) => set({ seed: value })}
          />
          <TextField
            label={t.virtualSpeed}
            path="transport.speed"
            number
            value={speed}
            onChange={(value) => set({ speed: value })}
          />
        </>
      );
    }
  }
}

const rates = ['9600', '57600', '115200', '230400', '460800', '921600'];

function Serial({ form, setForm }: TransportProps) {
  const t = rigWords.transport;
  const ports = useQuery({ ...serialPortsQuery(), retry: false }).data;
  const set = (part: Partial<SourceForm['serial']>) => setForm({ ...form, serial: { ...form.serial, ...part } });
  const { path, baudRate, dataBits, parity, stopBits, serialNumber, startBytes } = form.serial;
  return (
    <>
      <div>
        <TextField
          label={t.path}
          path="transport.path"
          value={path}
          list={ports?.map((port) => port.path) ?? []}
          onChange={(value) => {
            const port = ports?.find((one) => one.path === value);
            set({ path: value, ...(port?.serialNumber ? { serialNumber: port.serialNumber } : {}) });
          }}
        />
        {ports?.length === 0 && <p className="small soft">{t.noPorts}</p>}
      </div>
      <TextField
        label={t.baudRate}
        path="transport.baudRate"
        number
        list={rates}
        value={baudRate}
        onChange={(value) => set({ baudRate: value })}
      />
      <ChoiceField
        label={t.dataBits}
        path="transport.dataBits"
        value={dataBits}
        options={{ '': t.usual, 8: '8', 7: '7' }}
        onChange={(value) => set({ dataBits: value })}
      />
      <ChoiceField
        label={t.parity}
        path="transport.parity"
        value={parity}
        options={{ '': t.usual, ...t.parities }}
        onChange={(value) => set({ parity: value })}
      />
      <ChoiceField
        label={t.stopBits}
        path="transport.stopBits"
        value={stopBits}
        options={{ '': t.usual, 1: '1', 2: '2' }}
        onChange={(value) => set({ stopBits: value })}
      />
      <TextField
        label={t.serialNumber}
        path="transport.serialNumber"
        value={serialNumber}
        onChange={(value) => set({ serialNumber: value })}
      />
      <TextField
        label={t.startBytes}
        path="transport.startBytes"
        value={startBytes}
        onChange={(value) => set({ startBytes: value })}
      />
    </>
  );
}
