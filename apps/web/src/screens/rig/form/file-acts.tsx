import { useState } from 'react';
import { JsonFileButton } from '../../../parts/json-file-button.tsx';
import { useSay } from '../../../parts/status.tsx';
import { rigWords } from '../../../words/rig.ts';
import { saveFile } from '../../trial/save-file.ts';
import { lookAt } from './faults.ts';
import { formOf } from './from-document.ts';
import type { SourceForm } from './source-form.ts';
import { documentOf } from './to-document.ts';

interface FileActsProps {
  readonly form: SourceForm;
  setForm(form: SourceForm): void;
}

/** The description as a file that labs can share, out and in. */
export function FileActs({ form, setForm }: FileActsProps) {
  const t = rigWords.source;
  const [error, setError] = useState('');
  const say = useSay();
  const save = () => {
    const name =
      form.name
        .trim()
        .toLowerCase()
        .replace(/[^a-z0-9]+/g, '-') || 'source';
    const text = `${JSON.stringify(documentOf(form), null, 2)}\n`;
    saveFile({ name: `${name}.source.json`, content: new Blob([text], { type: 'application/json' }) });
  };
  const read = async (file: File) => {
    let document: unknown;
    try {
      document = JSON.parse(await file.text());
    } catch {
      return setError(t.notJson(file.name));
    }
    const looked = lookAt(document);
    if (!looked.ok) return setError(t.notSource(file.name, looked.faults.length));
    setError('');
    setForm(formOf(looked.description));
    say(t.imported(file.name));
  };
  return (
    <div className="acts">
      <JsonFileButton label={t.importFile} onFile={(file) => void read(file)} />
      <button type="button" className="button" onClick={save}>
        {t.exportFile}
      </button>
      {error && (
        <p className="field-error" role="alert">
          {error}
        </p>
      )}
    </div>
  );
}
