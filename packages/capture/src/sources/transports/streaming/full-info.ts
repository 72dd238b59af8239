import { connect } from 'node:net';
import { longestInfo } from '../../../streaming/protocol.ts';
import { readStreamInfo, type StreamInfo } from '../../../streaming/stream-info.ts';
import type { FoundStream } from './find-streams.ts';

/** How long an answer is awaited, ms. */
const patience = 1500;

/**
 * The stream info with its channels, asked over the connection for data: answers to queries leave them out. The request, `LSL:fullinfo`, is
 * from memory; where it is not answered within 1.5 s, or the answer is of another stream, what is known already stays.
 */
export function fullInfo({ info, address }: FoundStream): Promise<StreamInfo> {
  return new Promise((done) => {
    let text = '';
    const socket = connect({ host: address, port: info.dataPort });
    const decoder = new TextDecoder();
    const finish = (): void => {
      socket.destroy();
      const read = readStreamInfo(text);
      done(read.ok && read.value.uid === info.uid && read.value.channelCount === info.channelCount ? read.value : info);
    };
    // However slowly it drips.
    const timer = setTimeout(finish, patience);
    socket.on('connect', () => socket.write('LSL:fullinfo\r\n'));
    socket.on('data', (bytes) => {
      text += decoder.decode(bytes, { stream: true });
      if (text.length > longestInfo || text.trimEnd().endsWith('</info>')) socket.destroy();
    });
    socket.on('error', () => {});
    socket.on('close', () => {
      clearTimeout(timer);
      finish();
    });
  });
}
