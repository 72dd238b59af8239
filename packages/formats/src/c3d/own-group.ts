import { count, finite, listOf, object, oneOf, Unfit } from '../description/check.ts';
import { parseDescription, type RecordingDescription } from '../description/index.ts';
import type { Coding } from './coding.ts';
import type { Parameter } from './parameters.ts';

/**
 * What the group STHENE keeps beside the standard groups: names, doubles, gaps and facts that 16-bit integers, 32-bit floats
 * and short labels cannot hold. Others may ignore it; the standard groups say the same with less precision.
 */
export interface OwnGroup {
  readonly description: RecordingDescription;
  /**
   * One a written channel; channels behind the description's own hold platform forces. The rests of split channels follow
   * behind all of these, in the order of their channels.
   */
  readonly codings: readonly Coding[];
  /** N subtracted from the force of each platform after computing it from its channels. */
  readonly baselines: readonly number[];
  /** Platform index to the written channel that holds its force, where channels of its own do not give it. */
  readonly forceChannels: readonly { readonly platform: number; readonly channel: number }[];
}

const version = 'sthene.c3d/1';

/** The group as ASCII JSON, so that no row boundary can cut a character. */
export function ownGroupText(group: OwnGroup): string {
  const json = JSON.stringify({ version, ...group });
  return json.replace(/[\u007f-\uffff]/g, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

function codingOf(value: unknown, path: string): Coding {
  const from = object(value, path);
  const kind = oneOf(['plain', 'shifted', 'decimal', 'split'] as const)(from.kind as 'plain', `${path}.kind`);
  if (kind === 'split') return { kind, rests: count(from.rests, `${path}.rests`) };
  return kind === 'decimal' ? { kind, digits: count(from.digits, `${path}.digits`) } : { kind };
}

/** Reads the group back: null when the file has none, 'unfit' when it has one that does not keep its rules. */
export function readOwnGroup(parameters: ReadonlyMap<string, Parameter>): OwnGroup | null | 'unfit' {
  const parts: string[] = [];
  for (let part = 1; ; part++) {
    const parameter = parameters.get(part === 1 ? 'STHENE:META' : `STHENE:META${part}`);
    if (parameter === undefined) break;
    parts.push(new TextDecoder('utf-8').decode(parameter.bytes));
  }
  if (parts.length === 0) return null;
  try {
    const from = object(JSON.parse(parts.join('')), 'STHENE');
    oneOf([version])(from.version as string, 'version');
    const parsed = parseDescription(from.description);
    if (!parsed.ok) return 'unfit';
    const { description } = parsed;
    const codings = listOf(codingOf)(from.codings, 'codings');
    const forceChannels = listOf((entry, path) => {
      const pair = object(entry, path);
      const channel = count(pair.channel, `${path}.channel`);
      const platform = count(pair.platform, `${path}.platform`);
      if (channel >= codings.length || platform >= description.platforms.length) throw new Unfit(path, 'known indices');
      return { platform, channel };
    })(from.forceChannels, 'forceChannels');
    const baselines = listOf(finite)(from.baselines, 'baselines');
    if (baselines.length !== description.platforms.length) return 'unfit';
    if (codings.length !== description.channels.length + forceChannels.length) return 'unfit';
    return { description, codings, baselines, forceChannels };
  } catch (error) {
    if (error instanceof Unfit || error instanceof SyntaxError) return 'unfit';
    throw error;
  }
}
