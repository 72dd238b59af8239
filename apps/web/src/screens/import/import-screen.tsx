import { useCallback, useRef, useState } from 'react';
import { Link } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useCreateLab } from '../../data/labs.ts';
import { useStation } from '../../data/queries.ts';
import { importWords as t } from '../../words/importing.ts';
import { words } from '../../words/index.ts';
import { AthleteStep } from './athlete-step.tsx';
import { ColumnsStep } from './columns-step.tsx';
import { FilesStep } from './files-step.tsx';
import { LabNameField } from './lab-name-field.tsx';
import { ResultStep } from './result-step.tsx';
import { Steps } from './steps.tsx';
import { useImport } from './use-import.ts';
import { useReceived, useSession } from './use-received.ts';
import './import.css';

/** Bring in files: drop, see what is understood, name the athlete, try it out, import. */
export function ImportScreen() {
  const lab = useLab() ?? 'lab';
  // Another lab is another import: nothing is carried from one into the other.
  return <ImportInto key={lab} lab={lab} />;
}

function ImportInto({ lab }: { lab: 'lab' | 'example' }) {
  usePageTitle(words.app.import);
  const station = useStation();
  const exists = station.data?.labs.find((one) => one.id === lab)?.exists ?? true;
  const [name, setName] = useState('');
  const create = useCreateLab(lab);
  const latest = useRef({ exists, name, create });
  latest.current = { exists, name, create };
  const prepare = useCallback(async () => {
    const { exists, name, create } = latest.current;
    if (!exists) await create.mutateAsync(name.trim() || t.lab.preset);
  }, []);
  const imported = useImport(lab, prepare);
  useReceived(lab, imported.add);
  const { act } = imported;
  useSession(
    lab,
    useCallback((who, when) => act({ do: 'set', part: { who, when } }), [act]),
  );
  const { step, items } = imported.state;
  return (
    <section className="page import-page">
      {lab === 'example' && (
        <p className="import-example">
          <span className="example-mark small">{words.app.example}</span> {t.inExample}{' '}
          <Link to="/lab/import">{t.toLab}</Link>
        </p>
      )}
      <Steps imported={imported} />
      {step === 1 && (
        <FilesStep imported={imported}>
          {!exists && items.length === 0 && <LabNameField name={name} setName={setName} />}
        </FilesStep>
      )}
      {step === 2 && <ColumnsStep imported={imported} />}
      {step === 3 && <AthleteStep imported={imported} />}
      {step === 4 && <ResultStep imported={imported} />}
    </section>
  );
}
