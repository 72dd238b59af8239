import { type RefObject, useEffect, useState } from 'react';

/** Width of an element, px; 0 until it is known. */
export function useWidth(host: RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const element = host.current;
    if (element === null) return undefined;
    const observer = new ResizeObserver(() => setWidth(element.clientWidth));
    observer.observe(element);
    return () => observer.disconnect();
  }, [host]);
  return width;
}
