import type { LineRole } from '../operations/split.ts';
import type { VoiceNote } from './voice-note.ts';

/** What a line is like, from its notes. */
export interface LineCharacter {
  readonly noteCount: number;
  /** **Units** MIDI note numbers. */
  readonly meanMidi: number;
  /** Share of its moves that are a repeat or at most a whole tone. */
  readonly stepShare: number;
  /** Share of its moments that hold two notes or more. */
  readonly chordShare: number;
}

/** A role and why it was given, in words for the teacher. */
export interface RoleFound {
  readonly role: LineRole;
  readonly reason: string;
}

/** The character of the notes of one line, in order of onset. */
export function characterOf(notes: readonly VoiceNote[]): LineCharacter {
  const sorted = [...notes].sort((a, b) => a.onsetTicks - b.onsetTicks || b.midi - a.midi);
  const tops = sorted.filter((note, index) => index === 0 || note.onsetTicks !== sorted[index - 1]?.onsetTicks);
  const sum = sorted.reduce((total, note) => total + note.midi, 0);
  const steps = tops.filter(
    (note, index) => index > 0 && Math.abs(note.midi - (tops[index - 1] as VoiceNote).midi) <= 2,
  ).length;
  return {
    noteCount: sorted.length,
    meanMidi: sorted.length === 0 ? 0 : sum / sorted.length,
    stepShare: tops.length < 2 ? 0 : steps / (tops.length - 1),
    chordShare: tops.length === 0 ? 0 : (sorted.length - tops.length) / tops.length,
  };
}

const busyShare = 0.7;
const steppingShare = 0.5;
const leapingShare = 0.35;
const percent = (share: number): string => `${Math.round(100 * share)} %`;

function innerRole(line: LineCharacter, top: LineCharacter, isOnlyInner: boolean): RoleFound {
  if (line.chordShare > 0.5) return { role: 'accompaniment', reason: 'an inner line that is mostly chords' };
  if (line.noteCount >= busyShare * top.noteCount && line.stepShare >= steppingShare)
    return {
      role: 'counter',
      reason: `as busy as the melody and moves by step (${percent(line.stepShare)} of its moves)`,
    };
  if (isOnlyInner) return { role: 'middle', reason: 'what lies between the outer lines' };
  if (line.stepShare < leapingShare && line.noteCount > top.noteCount)
    return {
      role: 'accompaniment',
      reason: `busier than the melody and moves mostly by leaps (${percent(line.stepShare)} of its moves are steps)`,
    };
  return { role: 'middle', reason: 'lies between the outer lines' };
}

function lowestRole(line: LineCharacter, top: LineCharacter): RoleFound {
  if (line.stepShare < leapingShare && line.chordShare > 0.5 && line.noteCount > 2 * top.noteCount)
    return { role: 'accompaniment', reason: 'the lowest line, and mostly chords or broken chords' };
  return { role: 'bass', reason: 'the lowest line' };
}

/** A role for each line, the lines given from high to low; one counter-melody at most, other busy inner lines are middle voices. */
export function rolesOf(lines: readonly LineCharacter[]): readonly RoleFound[] {
  const top = lines[0];
  let hasCounter = false;
  return lines.map((line, index): RoleFound => {
    if (top === undefined || index === 0) return { role: 'melody', reason: 'the highest line' };
    if (index === lines.length - 1) return lowestRole(line, top);
    const found = innerRole(line, top, lines.length === 3);
    if (found.role !== 'counter') return found;
    if (hasCounter) return { role: 'middle', reason: 'lies between the outer lines, below another busy one' };
    hasCounter = true;
    return found;
  });
}
