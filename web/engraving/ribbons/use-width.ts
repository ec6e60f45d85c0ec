import { useLayoutEffect, useState, type RefObject } from 'react';

/** The width of an element in whole pixels, kept up to date; null until it is known. */
export function useWidth(element: RefObject<HTMLElement | null>): number | null {
  const [width, setWidth] = useState<number | null>(null);
  useLayoutEffect(() => {
    const observed = element.current;
    if (observed === null) return;
    const measure = () => setWidth(Math.floor(observed.clientWidth));
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(observed);
    return () => observer.disconnect();
  }, [element]);
  return width;
}
