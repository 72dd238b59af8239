/** Why there is no picture. */
export type CameraFault = 'denied' | 'none' | 'busy' | 'no-recorder' | 'lost';

export type Opened =
  | { readonly ok: true; readonly stream: MediaStream; readonly mediaType: string }
  | { readonly ok: false; readonly fault: CameraFault };

/** What a recorder here can write, best first; VP8 costs the least and is everywhere, MP4 is for devices without it. */
const mediaTypes = ['video/webm;codecs=vp8', 'video/webm;codecs=vp9', 'video/mp4;codecs=avc1.42E01E', 'video/mp4'];

/** Opens the camera that looks away from the screen, or any; picture only, never sound. */
export async function openCamera(): Promise<Opened> {
  const mediaType =
    typeof MediaRecorder === 'undefined' ? undefined : mediaTypes.find((type) => MediaRecorder.isTypeSupported(type));
  if (mediaType === undefined) return { ok: false, fault: 'no-recorder' };
  // Without a secure address a browser has no cameras at all.
  if (navigator.mediaDevices === undefined) return { ok: false, fault: 'denied' };
  try {
    const stream = await navigator.mediaDevices.getUserMedia({
      audio: false,
      video: {
        facingMode: { ideal: 'environment' },
        width: { ideal: 1280 },
        height: { ideal: 720 },
        frameRate: { ideal: 60, max: 120 },
      },
    });
    return { ok: true, stream, mediaType };
  } catch (error) {
    return { ok: false, fault: faultOf(error) };
  }
}

/** A browser's refusal as one of ours (Media Capture and Streams, section 10.2.1). */
export function faultOf(error: unknown): CameraFault {
  switch ((error as { name?: unknown } | undefined)?.name) {
    case 'NotAllowedError':
    case 'SecurityError':
      return 'denied';
    case 'NotReadableError':
    case 'AbortError':
      return 'busy';
    default:
      return 'none';
  }
}
