import { useMemo } from 'react';
import { rolesOfLines, type Line, type LineRole, type RoleOfNotes } from '../../../music/index.ts';
import { roleParts } from './new-line.ts';
import styles from './line-sheet.module.css';
import type { TableState } from './table-state.ts';

interface LineWhyProps {
  readonly state: TableState;
  readonly line: Line;
}

/** Why a line has its role, by the notes that are on it now; where they speak for another one, which and why. */
export function LineWhy({ state, line }: LineWhyProps) {
  const { score, room } = state;
  const roles = useMemo(() => rolesOfLines(score, room.split), [score, room.split]);
  return <p className={styles.why}>{whyWords(line.role, roles.get(line.id))}</p>;
}

const roleWord = (role: LineRole): string => roleParts.find((part) => part.role === role)?.name.toLowerCase() ?? role;

/** The role and its reason in a sentence. */
export function whyWords(role: LineRole, found: RoleOfNotes | undefined): string {
  if (found === undefined) return 'No notes yet.';
  if (found.role === role) return `The ${roleWord(role)}: ${found.reason}.`;
  return `Called the ${roleWord(role)}; by its notes the ${roleWord(found.role)}: ${found.reason}.`;
}
