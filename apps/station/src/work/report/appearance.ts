import {
  type ReportAppearance,
  type ReportAppearanceDraft,
  reportAppearance,
  reportLanguage,
  reportPaper,
  unknownAge,
} from '@sthene/contract';
import { type LogoOutcome, logoLimit, logoSide, readLogo } from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { ProblemError } from '../../server/problem-error.ts';

const key = 'report.appearance';

/** Zone of this machine, until somebody chooses one. */
const zoneHere = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone || 'UTC';

/** Name, logo, paper and language of the lab's reports. */
export async function showAppearance(lab: OpenLab): Promise<ReportAppearance> {
  const kept = reportAppearance.safeParse((await lab.store.settings.get(key))?.value);
  if (kept.success) return kept.data;
  return {
    labName: (await lab.store.settings.get<string>('lab.name'))?.value ?? lab.name,
    paper: reportPaper.enum.A4,
    language: reportLanguage.enum.en,
    zone: zoneHere(),
    unknownAge: unknownAge.enum['as-minor'],
  };
}

export async function changeAppearance(
  lab: OpenLab,
  { by, logo: sent, ...draft }: ReportAppearanceDraft,
): Promise<ReportAppearance> {
  checkZone(draft.zone);
  const before = await showAppearance(lab);
  const logo = sent === undefined ? before.logo : sent === null ? undefined : logoOf(sent);
  const value: ReportAppearance = { ...draft, ...(logo === undefined ? {} : { logo }) };
  await lab.store.settings.set(key, value, await lab.actor(by));
  return value;
}

/** Refuses a time zone that this machine does not know. */
export function checkZone(zone: string): void {
  try {
    new Intl.DateTimeFormat('en-GB', { timeZone: zone });
  } catch {
    throw new ProblemError(
      400,
      'time-zone-unknown',
      `There is no time zone "${zone.slice(0, 60)}".`,
      'Nothing was changed. Use a name as Europe/Vienna or UTC.',
    );
  }
}

function logoOf(data: string): NonNullable<ReportAppearance['logo']> {
  const bytes = Buffer.from(data, 'base64');
  const found = readLogo(bytes);
  if (!found.ok) throw refused[found.reason];
  const { mediaType, width, height } = found.logo;
  return { mediaType, width, height, data: bytes.toString('base64') };
}

const refused: Readonly<Record<Extract<LogoOutcome, { ok: false }>['reason'], ProblemError>> = {
  'logo-too-large': new ProblemError(
    413,
    'logo-too-large',
    `The logo is larger than ${logoLimit / 1000} kB.`,
    'Nothing was changed. Save the picture smaller: it is printed about 1 cm high.',
  ),
  'logo-not-an-image': new ProblemError(
    422,
    'logo-not-an-image',
    'This is no whole PNG or JPEG picture of a usual kind.',
    'Nothing was changed. Save the logo anew as PNG (8 bits a channel, not interlaced) or JPEG; SVG is not taken.',
  ),
  'logo-too-many-pixels': new ProblemError(
    422,
    'logo-too-many-pixels',
    `A side of the logo has more than ${logoSide} pixels.`,
    'Nothing was changed. Save the picture smaller: it is printed about 1 cm high.',
  ),
};
