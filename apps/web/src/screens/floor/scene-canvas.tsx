import { useEffect, useLayoutEffect, useRef, useState } from 'react';
import { measureWith, paintCanvas } from '../../curve/paint-canvas.ts';
import { themePalette } from '../../curve/palette.ts';
import type { Measure, Palette, Scene } from '../../curve/scene.ts';

type SceneOf = (width: number, height: number, measure: Measure) => Scene;

/** A canvas that paints the scene it is given, at the size it gets and in the colours in force, once a frame at most. */
export function SceneCanvas({ scene, label }: { scene: SceneOf; label: string }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const palette = useRef<Palette>(undefined);
  const [size, setSize] = useState({ width: 0, height: 0 });
  const [themed, setThemed] = useState(0);
  useEffect(() => {
    const host = canvas.current?.parentElement;
    if (!host) return;
    const observer = new ResizeObserver(() => setSize({ width: host.clientWidth, height: host.clientHeight }));
    observer.observe(host);
    const recolour = () => {
      palette.current = undefined;
      setThemed((n) => n + 1);
    };
    addEventListener('themechange', recolour);
    return () => {
      observer.disconnect();
      removeEventListener('themechange', recolour);
    };
  }, []);
  const paintedThisFrame = useRef(false);
  // At once, so that the curve is in the frame that shows what else a message changed; a second time only with the next frame, so that
  // a device that is too slow for every message leaves some out.
  useLayoutEffect(() => {
    const { width, height } = size;
    if (width === 0 || height === 0) return;
    const paint = () => {
      const surface = canvas.current;
      const pen = surface?.getContext('2d');
      if (!surface || !pen) return;
      const ratio = devicePixelRatio || 1;
      if (surface.width !== Math.round(width * ratio) || surface.height !== Math.round(height * ratio)) {
        surface.width = Math.round(width * ratio);
        surface.height = Math.round(height * ratio);
      }
      pen.setTransform(ratio, 0, 0, ratio, 0, 0);
      palette.current ??= themePalette();
      paintCanvas(pen, scene(width, height, measureWith(pen)), palette.current);
      paintedThisFrame.current = true;
      requestAnimationFrame(() => {
        paintedThisFrame.current = false;
      });
    };
    if (!paintedThisFrame.current) {
      paint();
      return;
    }
    const frame = requestAnimationFrame(paint);
    return () => cancelAnimationFrame(frame);
  }, [scene, size, themed]);
  return <canvas ref={canvas} role="img" aria-label={label} />;
}
