import type { LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useId } from 'react';
import { Link } from 'react-router';
import { protocolsQuery } from '../../data/protocols.ts';
import { protocolWords } from '../../words/protocols.ts';
import { testTitle } from '../trial/test-title.ts';

const t = protocolWords.choice;

/** Which protocol a test of a day is run by; '' is the usual one. Nothing is shown where there is none to choose from. */
export function ProtocolChoice({
  lab,
  test,
  value,
  onChange,
}: {
  lab: LabId;
  test: string;
  value: string;
  onChange: (sha256: string) => void;
}) {
  const id = useId();
  const found = useQuery(protocolsQuery(lab));
  const mine = (found.data ?? []).filter((one) => one.test === test && !one.archived);
  if (mine.length < 2) return null;
  return (
    <div className="field protocol-choice">
      <label htmlFor={id}>{t.label(testTitle(test))}</label>
      <select id={id} value={value} onChange={(event) => onChange(event.target.value)}>
        {mine.map((one) => (
          <option key={one.id} value={one.id === test ? '' : one.sha256}>
            {t.option(one.name, one.version)}
          </option>
        ))}
      </select>
      <Link className="small" to={`/${lab}/protocols`}>
        {t.all}
      </Link>
    </div>
  );
}
