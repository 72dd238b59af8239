import { useQuery } from '@tanstack/react-query';
import { serialPortsQuery } from '../../../data/rigs.ts';
import { rigWords } from '../../../words/rig.ts';
import { TextField } from './parts.tsx';
import type { SourceForm } from './source-form.ts';
import { withTransport } from './transport-fields.ts';

/** The serial port: one of those the station sees, or a path that is written. A known device brings its serial number. */
export function SerialPortField({ form, setForm }: { form: SourceForm; setForm(form: SourceForm): void }) {
  const t = rigWords.transport;
  const query = useQuery({ ...serialPortsQuery(), retry: false });
  const ports = query.data;
  const choose = (path: string) => {
    const number = ports?.find((one) => one.path === path)?.serialNumber;
    setForm(withTransport(form, { path, ...(number ? { serialNumber: number } : {}) }));
  };
  return (
    <div>
      <TextField
        label={t.path}
        path="transport.path"
        value={form.serial.path}
        list={ports?.map(({ path }) => path) ?? []}
        onChange={choose}
      />
      {ports?.length === 0 && <p className="small soft">{t.noPorts}</p>}
      {ports && ports.length > 0 && (
        <ul className="ports small">
          {ports.map(({ path, maker, serialNumber }) => (
            <li key={path}>
              <button
                type="button"
                className="button"
                aria-pressed={path === form.serial.path}
                onClick={() => choose(path)}
              >
                {path}
              </button>{' '}
              <span className="soft">{[maker, serialNumber].filter(Boolean).join(', ')}</span>
            </li>
          ))}
        </ul>
      )}
      <button type="button" className="button quiet" onClick={() => void query.refetch()}>
        {t.lookAgain}
      </button>
    </div>
  );
}
