/** Permanent codes of what keeps a link from standing or from delivering. */
export type LinkTroubleCode =
  | 'source-port-busy'
  | 'source-port-denied'
  | 'source-port-missing'
  | 'source-address-in-use'
  | 'source-address-unknown'
  | 'source-no-answer'
  | 'source-link-failed'
  | 'source-wrong-device'
  | 'source-no-bytes'
  | 'source-baud-doubtful'
  | 'source-not-decoded'
  | 'source-checksum-wrong'
  | 'source-stream-missing'
  | 'source-stream-several'
  | 'source-stream-differs'
  | 'source-stream-refused'
  | 'source-stream-broken'
  | 'source-file-unreadable';

/** What each means and what to do next, for screens and the reference page; a test keeps them equal. */
export const linkTroubles: Readonly<Record<LinkTroubleCode, { readonly means: string; readonly next: string }>> = {
  'source-port-busy': {
    means: 'Another program holds the serial port.',
    next: 'End that program, or close the rig that uses this port. The station tries again by itself.',
  },
  'source-port-denied': {
    means: 'The system does not let the station open this serial port.',
    next: 'On Linux, put the user of the station into the group dialout (sudo usermod -aG dialout NAME), then sign in to the system anew.',
  },
  'source-port-missing': {
    means: 'There is no such serial port on this machine now.',
    next: 'Plug the device in, or choose another port. The station tries again by itself.',
  },
  'source-address-in-use': {
    means: 'Another program listens on this port number already.',
    next: 'Choose another port number, or end that program or close the rig that uses it.',
  },
  'source-address-unknown': {
    means: 'This address cannot be found, or is none of this machine.',
    next: 'Check how the address is written. To listen on all networks of this machine write 0.0.0.0.',
  },
  'source-no-answer': {
    means: 'Nobody answers at this address and port.',
    next: 'Check that the device is on, in the same network, and that the port number is right. The station tries again by itself.',
  },
  'source-link-failed': {
    means: 'The link could not be opened, or broke.',
    next: 'Check cable, power and description. The station tries again by itself.',
  },
  'source-wrong-device': {
    means: 'Another device answers than the one this source knows.',
    next: 'Plug in the right device, or correct the serial number in the description.',
  },
  'source-no-bytes': {
    means: 'Nothing has come from the device for 5 s.',
    next: 'Check that the device is measuring. Some devices have to be told to begin: write the bytes that start it.',
  },
  'source-baud-doubtful': {
    means: 'Bytes come, but they make no sense at this baud rate.',
    next: 'Try the baud rate of the device’s manual; 115200, 230400 and 921600 are usual.',
  },
  'source-not-decoded': {
    means: 'Bytes come, but by this layout none of them is a sample.',
    next: 'Look at the bytes and take a layout that was recognised, or correct this one.',
  },
  'source-checksum-wrong': {
    means: 'Frames come, but most of their checksums do not agree.',
    next: 'Correct the kind of checksum, its byte order, or whether it covers the sync bytes.',
  },
  'source-stream-missing': {
    means: 'No stream answers that fits the description.',
    next: 'Start the sender, and check name and source id, and that it is in the same network. The station tries again by itself.',
  },
  'source-stream-several': {
    means: 'Several streams fit the description.',
    next: 'Write the source id of the one that is meant, or the machine it comes from.',
  },
  'source-stream-differs': {
    means: 'The stream is another than the description says: its rate, its channels, or what they hold.',
    next: 'Look for streams again, choose it anew, and look at its channels.',
  },
  'source-stream-refused': {
    means: 'The sender refuses the connection, or speaks another version of the protocol.',
    next: 'Bring the sender to version 1.10 of the protocol, or let its samples come in another way.',
  },
  'source-stream-broken': {
    means: 'What the sender sends cannot be read as samples of its stream.',
    next: 'Start the sender anew. If it stays, its program does not keep to the protocol.',
  },
  'source-file-unreadable': {
    means: 'The file or folder of this source cannot be read.',
    next: 'Check the path, and that the station may read it.',
  },
};

/** The code of a system's error on a link. */
export function troubleOf(error: Error): LinkTroubleCode {
  const { code } = error as NodeJS.ErrnoException;
  const text = error.message;
  // Serial ports tell the system's reason only in words.
  if (/cannot lock|resource temporarily|resource busy|access denied|in use/iu.test(text) && code !== 'EADDRINUSE')
    return 'source-port-busy';
  if (code === 'EACCES' || code === 'EPERM' || /permission denied|not permitted/iu.test(text))
    return 'source-port-denied';
  if (code === 'EADDRINUSE') return 'source-address-in-use';
  if (code === 'ENOTFOUND' || code === 'EADDRNOTAVAIL' || code === 'EAI_AGAIN') return 'source-address-unknown';
  if (code === 'ECONNREFUSED' || code === 'ETIMEDOUT' || code === 'EHOSTUNREACH' || text === 'no answer')
    return 'source-no-answer';
  if (/no such file|file not found|cannot find/iu.test(text)) return 'source-port-missing';
  return 'source-link-failed';
}
