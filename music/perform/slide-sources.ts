import { endsNote, hasTechnique, type PlayedNote } from './played-notes.ts';

/** A slide comes from a note that was struck at most this long before. **Units** seconds. From memory, no source. */
const longestSeconds = 8;

const voiceOf = ({ main }: PlayedNote): string => {
  const [voice] = main.voices;
  return voice === undefined ? '' : `${voice.part}/${voice.staff}/${voice.voice}`;
};

const midiOf = ({ sound }: PlayedNote): number => (sound.kind === 'pitched' ? sound.soundingMidi : Infinity);

/** Of the notes struck last in a voice, the one nearest in pitch. */
function nearest(note: PlayedNote, candidates: readonly PlayedNote[]): PlayedNote | undefined {
  const distance = (candidate: PlayedNote): number => Math.abs(midiOf(candidate) - midiOf(note));
  return [...candidates].sort((a, b) => distance(a) - distance(b))[0];
}

/** What was struck last on each string and in each voice, as one goes through the notes. */
class LastStruck {
  private readonly onString = new Map<number, PlayedNote>();
  private readonly inVoice = new Map<string, readonly PlayedNote[]>();

  add(note: PlayedNote): void {
    if (note.sound.kind === 'hit' || !endsNote(note)) return;
    if (note.fingerboard !== null) this.onString.set(note.fingerboard.string, note);
    const together = this.inVoice.get(voiceOf(note)) ?? [];
    const isTogether = together[0]?.onsetTicks === note.onsetTicks && together[0].isGrace === note.isGrace;
    this.inVoice.set(voiceOf(note), isTogether ? [...together, note] : [note]);
  }

  before(note: PlayedNote): PlayedNote | undefined {
    const source =
      note.fingerboard === null
        ? nearest(note, this.inVoice.get(voiceOf(note)) ?? [])
        : this.onString.get(note.fingerboard.string);
    const wait = note.onsetSeconds - (source?.onsetSeconds ?? -Infinity);
    return wait > 1e-9 && wait <= longestSeconds && source?.sound.kind === 'pitched' ? source : undefined;
  }
}

/**
 * The note that each slide comes from, for notes sorted by onset: the last one on its string, grace notes too; without
 * strings the last one of its voice, of a chord the one nearest in pitch.
 */
export function slideSourcesOf(notes: readonly PlayedNote[]): ReadonlyMap<PlayedNote, PlayedNote> {
  const sources = new Map<PlayedNote, PlayedNote>();
  const last = new LastStruck();
  let waiting: PlayedNote[] = [];
  for (const note of notes) {
    if ((waiting[0]?.onsetTicks ?? note.onsetTicks) !== note.onsetTicks || waiting[0]?.isGrace !== note.isGrace) {
      for (const each of waiting) last.add(each);
      waiting = [];
    }
    const isSlide = hasTechnique(note, 'slide') && note.sound.kind === 'pitched';
    const source = isSlide ? last.before(note) : undefined;
    if (source !== undefined) sources.set(note, source);
    waiting.push(note);
  }
  return sources;
}
