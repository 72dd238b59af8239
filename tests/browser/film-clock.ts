import type { Page } from 'playwright-core';

/**
 * Put into a page before anything else: in the place of the camera a canvas is filmed on which the device's clock is painted as black
 * and white fields, tenths of a millisecond in 32 bits, so that each frame of the film says itself when it was painted.
 */
export const drawClock = `
  navigator.mediaDevices.getUserMedia = async () => {
    const canvas = Object.assign(document.createElement('canvas'), { width: 320, height: 180 });
    const pen = canvas.getContext('2d', { alpha: false });
    const paint = () => {
      const tenths = Math.round(10 * performance.now()) >>> 0;
      for (let bit = 0; bit < 32; bit++) {
        pen.fillStyle = (tenths >>> bit) & 1 ? '#fff' : '#000';
        pen.fillRect((bit % 8) * 40, Math.floor(bit / 8) * 45, 40, 45);
      }
    };
    // About 25 pictures a second, unevenly, as a camera in a dim room.
    const again = () => {
      paint();
      setTimeout(again, 34 + 12 * Math.random());
    };
    again();
    return canvas.captureStream();
  };
`;

/** The clock that each frame of a film shows, ms; undefined where a field is neither black nor white. */
export function readClocks(page: Page, address: string, frames: readonly number[]): Promise<(number | undefined)[]> {
  return page.evaluate(
    `(async () => {
      const frames = ${JSON.stringify(frames)};
      const video = Object.assign(document.createElement('video'), { muted: true, src: ${JSON.stringify(address)} });
      await new Promise((done, failed) => { video.onloadeddata = done; video.onerror = failed; });
      const canvas = Object.assign(document.createElement('canvas'), { width: 320, height: 180 });
      const pen = canvas.getContext('2d', { willReadFrequently: true });
      const read = [];
      for (let i = 0; i < frames.length; i += 3) {
        const next = frames[i + 1] ?? frames[i] + 0.002;
        const seeked = new Promise((done) => { video.onseeked = done; });
        video.currentTime = (frames[i] + next) / 2;
        await seeked;
        pen.drawImage(video, 0, 0, 320, 180);
        let tenths = 0;
        let clear = true;
        for (let bit = 0; bit < 32; bit++) {
          const [shade] = pen.getImageData((bit % 8) * 40 + 20, Math.floor(bit / 8) * 45 + 22, 1, 1).data;
          if (shade > 70 && shade < 185) clear = false;
          if (shade >= 128) tenths += 2 ** bit;
        }
        read[i] = clear ? tenths / 10 : undefined;
      }
      return frames.map((_, i) => read[i]);
    })()`,
  ) as Promise<(number | undefined)[]>;
}
