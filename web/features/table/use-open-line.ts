import { useCallback, useState } from 'react';
import type { LineId } from '../../../music/index.ts';

/** The open line's sheet: which line, and the gap under the system whose eye was pressed. */
interface OpenLine {
  readonly line: LineId;
  readonly gap: HTMLElement;
}

/** The line whose sheet is open, and how to open and close it. */
export function useOpenLine() {
  const [open, setOpen] = useState<OpenLine | null>(null);
  const close = useCallback(() => {
    setOpen((present) => {
      present?.gap.remove();
      return null;
    });
  }, []);
  const toggle = useCallback((line: LineId, under: HTMLElement) => {
    setOpen((present) => {
      present?.gap.remove();
      if (present?.line === line && present.gap.previousElementSibling === under) return null;
      const gap = document.createElement('div');
      under.after(gap);
      return { line, gap };
    });
  }, []);
  return { open, close, toggle };
}
