import type { Bar, Jump } from '../../score/score.ts';
import type { IssueLog } from './issue-log.ts';

/** Jumps with where they land and what to call it. */
const landings: readonly (readonly [Jump, Jump, string])[] = [
  ['dalSegno', 'segno', 'A sign sends the player back to a segno, which stands nowhere; it was left out in playing.'],
  ['toCoda', 'coda', 'A sign sends the player on to a coda, which stands nowhere; it was left out in playing.'],
];

/** Reports jumps that lead nowhere. */
export function reportJumps(bars: readonly Bar[], partName: string, log: IssueLog): void {
  for (const [jump, landing, detail] of landings) {
    if (bars.some(({ jumps }) => jumps.includes(landing))) continue;
    bars.forEach((bar, barIndex) => {
      if (bar.jumps.includes(jump))
        log.add('span-unresolved', 'warning', detail, { partName, barIndex, offsetTicks: 0 });
    });
  }
}
