import type { ReportQuery } from '@sthene/contract';
import { version } from '@sthene/contract';
import { type ReportFrame, readLogo } from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { checkZone, showAppearance } from './appearance.ts';

type Asked = Pick<ReportQuery, 'language' | 'zone' | 'unknownAge'>;

/** What the lab's reports are made with; what is asked for goes before what the lab chose. */
export async function frameOf(lab: OpenLab, asked: Asked): Promise<ReportFrame> {
  const chosen = await showAppearance(lab);
  const zone = asked.zone ?? chosen.zone;
  checkZone(zone);
  const logo = chosen.logo && readLogo(Buffer.from(chosen.logo.data, 'base64'));
  return {
    language: asked.language ?? chosen.language,
    lab: { name: chosen.labName, ...(logo?.ok ? { logo: logo.logo } : {}) },
    demo: lab.demo,
    software: `Sthene ${version}`,
    zone,
    unknownAge: asked.unknownAge ?? chosen.unknownAge,
  };
}
