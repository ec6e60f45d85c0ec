import { lineId, type LineId, type NoteId } from '../../music/basis/ids.ts';
import { emptySplit, type Line, type Mark, type Split } from '../../music/operations/split.ts';
import type { Score, SourceVoice } from '../../music/score/score.ts';

const voiceName = ({ part, staff, voice }: SourceVoice): string => `${part}/${staff}/${voice}`;

const faces = ['madder', 'weld', 'verdigris', 'indigo', 'walnut', 'logwood'] as const;

function lineAt(name: string, index: number): Line {
  return {
    id: lineId(name),
    name,
    role: 'middle',
    dye: faces[index % faces.length]!,
    letter: String(index + 1),
    orderKey: `a${String(index).padStart(3, '0')}`,
    isRetired: false,
  };
}

/** The split that puts every note on the line of the voice that wrote it, hits on a line of their own. */
export function splitByVoice(score: Score): Split {
  const marks = new Map<NoteId, Mark>();
  const names = new Set<string>();
  for (const note of score.notes) {
    const lines = note.sound.kind === 'hit' ? ['hits'] : [...new Set(note.voices.map(voiceName))].sort();
    for (const name of lines) names.add(name);
    marks.set(note.id, {
      lines: lines.map((name): LineId => lineId(name)),
      from: 'person',
      confidence: null,
      revision: 1,
    });
  }
  const lines = [...names].sort().map((name, index): Line => {
    const line = lineAt(name, index);
    return name === 'hits' ? { ...line, role: 'percussion' } : line;
  });
  return { ...emptySplit, lines, marks };
}
