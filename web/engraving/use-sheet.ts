import { useEffect, useLayoutEffect, useRef, useState, type RefObject } from 'react';
import type { SheetLook } from './look.ts';
import { Sheet, type PlaceSource, type SheetHandlers, type ShownBars } from './sheet.ts';
import type { SheetSource } from './strip.ts';

/** What a component gives to a sheet that lives outside React. */
export interface SheetInputs {
  readonly source: SheetSource;
  readonly shown: ShownBars;
  readonly look: SheetLook;
  readonly place: PlaceSource | null;
  readonly handlers: SheetHandlers;
}

/** A sheet within an element, alive as long as the component; looks and places reach it without rendering. */
export function useSheet(inputs: SheetInputs): {
  readonly host: RefObject<HTMLDivElement | null>;
  readonly sheet: Sheet | null;
} {
  const host = useRef<HTMLDivElement | null>(null);
  const [sheet, setSheet] = useState<Sheet | null>(null);
  const { source, shown, look, place, handlers } = inputs;
  useLayoutEffect(() => {
    if (host.current === null) return;
    const made = new Sheet(host.current);
    setSheet(made);
    return () => made.destroy();
  }, []);
  useLayoutEffect(() => sheet?.setHandlers(handlers), [sheet, handlers]);
  useLayoutEffect(
    () => sheet?.show(source, { first: shown.first, last: shown.last }),
    [sheet, source, shown.first, shown.last],
  );
  useLayoutEffect(() => sheet?.paint(look), [sheet, look]);
  useEffect(() => {
    sheet?.follow(place);
    return () => sheet?.follow(null);
  }, [sheet, place]);
  return { host, sheet };
}
