import type { Score, SoundingNote, SourceVoice } from '../score/score.ts';
import type { VoiceNote } from './voice-note.ts';

/** One copy of a sounding note for the splitter: a double-stemmed unison has two. */
export interface EvidencedNote {
  readonly source: SoundingNote;
  readonly note: VoiceNote;
}

function copyOf(source: SoundingNote, midi: number, voice: SourceVoice | undefined): EvidencedNote {
  const note: VoiceNote = {
    onsetTicks: source.onsetTicks,
    lengthTicks: source.lengthTicks,
    midi,
    string: source.fingerboard?.string,
    sourceVoice: voice === undefined ? undefined : `${voice.part}/${voice.staff}/${voice.voice}`,
    stem: voice?.stem ?? undefined,
    finger: source.pluckingFinger ?? undefined,
    letRing: source.techniques.includes('letRing'),
  };
  return { source, note };
}

/** The pitched notes of a score with what the file tells about each, a double-stemmed unison twice. */
export const evidencedNotes = (score: Pick<Score, 'notes'>): readonly EvidencedNote[] =>
  score.notes.flatMap((source) => {
    const { sound, voices } = source;
    if (sound.kind !== 'pitched') return [];
    return voices.length < 2
      ? [copyOf(source, sound.soundingMidi, voices[0])]
      : voices.slice(0, 2).map((voice) => copyOf(source, sound.soundingMidi, voice));
  });
