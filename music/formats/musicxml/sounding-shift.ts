import type { SoundingChoice } from './sounding-choice.ts';
import type { IssueCode } from '../../basis/issue.ts';

/** What a part's file says about how its written pitches sound. */
export interface ShiftEvidence {
  /** Semitones of `<transpose>`, or null where there is none. */
  readonly transposeSemitones: number | null;
  /** Octaves that the notation's clef shifts by. */
  readonly clefOctave: number;
  /** Semitones from the written pitches to strings and frets without capo, where enough notes agree on one distance. */
  readonly fretDistance: number | null;
  /** Of the notes with string and fret, the share that lies at that distance. **Units** 0 to 1. */
  readonly fretSupport: number;
  readonly capoFret: number;
  /** Whether the part looks like a guitar and has a notation staff. */
  readonly isGuitarNotation: boolean;
  /** What a person decided, for parts with frets. */
  readonly choice: SoundingChoice;
}

/** What was believed about how a part sounds: a person, the file's transposition or clef, its strings and frets, or nothing but what is usual. */
export type SoundingEvidence = 'person' | 'transposition' | 'clef' | 'frets' | 'assumption';

/** How far written pitches sound from where they are written, why, and what had to be assumed for it. */
export interface SoundingShift {
  readonly shift: number;
  /** Octaves from written to sounding pitch, the capo aside. */
  readonly octave: number;
  readonly octaveBy: SoundingEvidence;
  /** What the pitches of a part with a capo are; null without one. */
  readonly capo: { readonly are: 'shapes' | 'sounding'; readonly by: SoundingEvidence } | null;
  readonly findings: readonly { readonly code: IssueCode; readonly detail: string }[];
}

type Finding = SoundingShift['findings'][number];

interface Base {
  readonly shift: number;
  readonly by: SoundingEvidence;
  readonly findings: readonly Finding[];
}

const octaves = [0, -12, 12, -24, 24];

/** The whole octaves that make strings and frets agree with pitches written either in shapes (before the capo) or as they sound. */
function octaveByFrets(fretDistance: number, capoFret: number): number | null {
  const fits = (octave: number, residue: number): boolean => fretDistance - octave === residue;
  return octaves.find((octave) => fits(octave, 0)) ?? octaves.find((octave) => fits(octave, -capoFret)) ?? null;
}

/** So many of all notes must agree before strings and frets are believed against transposition or clef. */
const overwhelming = 0.9;

/** What transposition or clef say, moved by whole octaves where nearly all strings and frets say so. */
function saidBase(
  said: number,
  by: 'transposition' | 'clef',
  { fretDistance, fretSupport, capoFret }: ShiftEvidence,
): Base {
  if (fretDistance === null || fretSupport <= overwhelming) return { shift: said, by, findings: [] };
  const octaves = [fretDistance - said, fretDistance - said + capoFret].find((residue) => residue % 12 === 0) ?? 0;
  if (octaves === 0) return { shift: said, by, findings: [] };
  const share = Math.round(fretSupport * 100);
  const detail = `The ${by} and the strings and frets lie ${Math.abs(octaves / 12)} octave(s) apart; the frets, on which ${share} % of the notes agree, were believed.`;
  return { shift: said + octaves, by: 'frets', findings: [{ code: 'string-fret-disagree', detail }] };
}

function baseOf(evidence: ShiftEvidence): Base {
  const { transposeSemitones, clefOctave, choice } = evidence;
  if (choice.octave !== null) {
    const remainder = (transposeSemitones ?? 0) % 12;
    return { shift: 12 * choice.octave + remainder, by: 'person', findings: [] };
  }
  if (transposeSemitones !== null) return saidBase(transposeSemitones, 'transposition', evidence);
  if (clefOctave !== 0) return saidBase(0, 'clef', evidence);
  if (evidence.fretDistance !== null) {
    const octave = octaveByFrets(evidence.fretDistance, evidence.capoFret);
    if (octave !== null) return { shift: octave, by: 'frets', findings: [] };
  }
  if (!evidence.isGuitarNotation) return { shift: 0, by: 'assumption', findings: [] };
  const detail =
    'The file does not say at which octave the guitar sounds; an octave below the written one was assumed.';
  return { shift: -12, by: 'assumption', findings: [{ code: 'octave-assumed', detail }] };
}

const modulo12 = (semitones: number): number => ((semitones % 12) + 12) % 12;

const disagreement = (residue: number): Finding => ({
  code: 'string-fret-disagree',
  detail: `Strings and frets lie ${Math.abs(residue)} semitones ${residue > 0 ? 'above' : 'below'} the pitches that transposition and clef give; the pitches were kept.`,
});

/** Which semitones a capo adds, and why. */
interface CapoReading {
  readonly are: 'shapes' | 'sounding';
  readonly by: SoundingEvidence;
  /** Semitones beside those that transposition and clef give. */
  readonly added: number;
  readonly findings: readonly Finding[];
}

function capoOf({ shift }: Base, evidence: ShiftEvidence): CapoReading {
  const { fretDistance, capoFret, choice } = evidence;
  if (choice.capo !== null)
    return { are: choice.capo, by: 'person', added: choice.capo === 'shapes' ? capoFret : 0, findings: [] };
  if (fretDistance === null) return assumedCapo(evidence);
  const residue = fretDistance - shift;
  const isInShapes = modulo12(residue) === 0 && modulo12(residue + capoFret) !== 0;
  const isAgreed = residue === 0 || residue === -capoFret;
  return {
    are: isInShapes ? 'shapes' : 'sounding',
    by: 'frets',
    added: isInShapes ? capoFret : 0,
    findings: isAgreed ? [] : [disagreement(residue)],
  };
}

function assumedCapo({ capoFret, transposeSemitones }: ShiftEvidence): CapoReading {
  if (capoFret === 0 || modulo12(transposeSemitones ?? 0) === modulo12(capoFret))
    return { are: 'shapes', by: 'transposition', added: 0, findings: [] };
  const detail = `The file does not say whether it is written in shapes or as it sounds with the capo at fret ${capoFret}; shapes were assumed.`;
  return { are: 'shapes', by: 'assumption', added: capoFret, findings: [{ code: 'capo-assumed', detail }] };
}

/** How a part's written pitches sound, by its evidence in order: transposition, clef, strings and frets, else an assumption that is told. */
export function soundingShiftOf(evidence: ShiftEvidence): SoundingShift {
  const base = baseOf(evidence);
  const { are, by, added, findings } = capoOf(base, evidence);
  return {
    shift: base.shift + added,
    octave: (base.shift - ((evidence.transposeSemitones ?? 0) % 12)) / 12,
    octaveBy: base.by,
    capo: evidence.capoFret === 0 ? null : { are, by },
    findings: [...base.findings, ...findings],
  };
}
