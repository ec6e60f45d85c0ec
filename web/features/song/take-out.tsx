import { useState } from 'react';
import type { ExportSlot } from '../../ui/export-slot.ts';
import { EdgeButton } from '../../ui/buttons.tsx';
import styles from './song.module.css';

interface TakeOutProps {
  readonly songId: string;
  readonly ExportSlip: ExportSlot;
}

/** The way to files of the song. */
export function TakeOut({ songId, ExportSlip }: TakeOutProps) {
  const [isOpen, setOpen] = useState(false);
  return (
    <section aria-labelledby="take-out" className={styles.takeOut}>
      <h2 id="take-out">Take it out</h2>
      <p className={styles.quiet}>
        Pages to print, pictures for a video, notes for other programs, sound of every line, or everything at once.
      </p>
      <EdgeButton onPress={() => setOpen(true)}>Make a file</EdgeButton>
      <ExportSlip songId={songId} excerpt={null} isOpen={isOpen} onClose={() => setOpen(false)} />
    </section>
  );
}
