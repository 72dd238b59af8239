import { describeStream, findStreams, fullInfo, unusable } from '@sthene/capture';
import type { FoundStreams, streamSearch } from '@sthene/contract';
import type { z } from 'zod';
import type { LiveLab } from '../live-lab.ts';

/** How long answers are awaited, s. */
const patience = 1.5;
/** Most streams that are asked for their channels. */
const mostAsked = 64;

/** Streams that answer in the network, each with a description that would read it. */
export async function lookForStreams(
  live: LiveLab,
  { host, port }: z.infer<typeof streamSearch>,
): Promise<FoundStreams> {
  const { streamNetwork: network } = live.ports;
  const { streams, failed } = await findStreams({ host, port, network, seconds: patience });
  const own = live.outlets.uids;
  const asked = streams.filter(({ info }) => !own.has(info.uid)).slice(0, mostAsked);
  const infos = await Promise.all(asked.map(fullInfo));
  const place = host === undefined ? undefined : { host, ...(port === undefined ? {} : { port }) };
  const found = infos.map((info, i): FoundStreams['streams'][number] => {
    const { name, type, sourceId, hostname, rate, format, channelCount } = info;
    const words = unusable(info);
    return {
      ...{ name, type, sourceId, hostname, rate, format, channelCount },
      address: asked[i]?.address ?? '',
      labels: info.channels.map(({ label }) => label),
      ...(words === undefined
        ? { description: describeStream(info, place) as NonNullable<FoundStreams['streams'][number]['description']> }
        : { words }),
    };
  });
  found.sort((a, b) => Number(a.words !== undefined) - Number(b.words !== undefined) || a.name.localeCompare(b.name));
  return { streams: found, ...(failed === undefined ? {} : { problem: failed.message }) };
}
