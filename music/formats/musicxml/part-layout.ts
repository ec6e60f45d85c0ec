import type { Bar, Part, Tuning } from '../../score/score.ts';
import { chainsOf, firstHead, joinUnisons, twiceStruck, writtenMidi, type Chain } from './chains.ts';
import { isFretted, isGuitarNamed, soundingTuning, staffKindsOf, standardTuning } from './guitar.ts';
import type { IssueLog } from './issue-log.ts';
import { fingerboardMidi, mostFrequent, pairTablature, reportPairing, type Pairing } from './pairing.ts';
import type { RawPart } from './raw-part.ts';
import { retuningsOf } from './retunings.ts';
import { choiceFor, type SoundingChoice, type SoundingChoices } from './sounding-choice.ts';
import { soundingShiftOf, type SoundingShift } from './sounding-shift.ts';

/** A part with its chains, sorted out: what it writes, what copies it, how it sounds. */
export interface PartLayout {
  readonly raw: RawPart;
  readonly part: Part;
  /** The chains that sound, copies not among them. */
  readonly chains: readonly Chain[];
  /** Tablature chains by the chain that they copy. */
  readonly copies: ReadonlyMap<Chain, readonly Chain[]>;
  readonly isFretted: boolean;
  /** How its pitches were taken to sound, and why. */
  readonly sounding: SoundingShift;
  /** How they would sound by the file's evidence alone. */
  readonly soundingByFile: SoundingShift;
  /** A capo that moves later on moves the pitches. */
  readonly movesWithCapo: boolean;
}

interface Draft {
  readonly raw: RawPart;
  readonly isFretted: boolean;
  /** The notation's chains, double-stemmed unisons apart. */
  readonly stems: readonly Chain[];
  notation: readonly Chain[];
  readonly tablature: readonly Chain[];
  readonly isTablatureOnly: boolean;
  pairing: Pairing | null;
  /** The tablature part that copies this one. */
  copiedBy: Draft | null;
  /** The part that this one copies. */
  copies: Draft | null;
}

const joined = (chains: readonly Chain[], fretted: boolean, twice?: ReadonlySet<string>): readonly Chain[] =>
  fretted ? joinUnisons(chains, twice) : chains;

function draftOf(raw: RawPart, bars: readonly Bar[], log: IssueLog): Draft {
  const fretted = isFretted(raw);
  const chains = chainsOf(raw, bars, log);
  const tablature = joined(
    chains.filter((chain) => chain.kind === 'tablature'),
    fretted,
  );
  const others = chains.filter((chain) => chain.kind !== 'tablature');
  return {
    raw,
    isFretted: fretted,
    stems: others,
    notation: joined(others, fretted, twiceStruck(tablature)),
    tablature,
    isTablatureOnly: staffKindsOf(raw).every((kind) => kind === 'tablature'),
    pairing: null,
    copiedBy: null,
    copies: null,
  };
}

function tuningOf(draft: Draft): Tuning | null {
  const given = draft.raw.tuning ?? draft.copiedBy?.raw.tuning ?? draft.copies?.raw.tuning ?? null;
  if (given !== null) return soundingTuning(given);
  const usesFrets = draft.raw.heads.some((head) => head.fingerboard !== null) || draft.tablature.length > 0;
  return usesFrets || isGuitarNamed(draft.raw) || draft.copiedBy !== null || draft.copies !== null
    ? standardTuning
    : null;
}

const leastAgreement = 0.75;
const leastCoverage = 0.6;

/** Joins tablature with notation of another part: it is plucked as the tablature says, on one string once, on two strings twice. */
function pairAcross(drafts: readonly Draft[]): void {
  for (const tab of drafts.filter((draft) => draft.isTablatureOnly && draft.tablature.length > 0)) {
    const candidates = drafts.filter(
      (draft) => draft.tablature.length === 0 && draft.notation.length > 0 && draft.copiedBy === null,
    );
    const twice = twiceStruck(tab.tablature);
    const tried = candidates.map((draft) => {
      const tuning = soundingTuning(tab.raw.tuning ?? draft.raw.tuning ?? standardTuning);
      const notation = joinUnisons(draft.stems, twice);
      return { draft, notation, pairing: pairTablature(notation, tab.tablature, tuning) };
    });
    const fitting = tried.filter(
      ({ notation, pairing }) =>
        pairing.agreement >= leastAgreement && pairing.copyOf.size >= leastCoverage * notation.length,
    );
    const nearness = ({ draft }: (typeof tried)[number]): number => Math.abs(draft.raw.index - tab.raw.index);
    const best = fitting.sort((a, b) => b.pairing.agreement - a.pairing.agreement || nearness(a) - nearness(b))[0];
    if (best === undefined) continue;
    best.draft.copiedBy = tab;
    best.draft.notation = best.notation;
    best.draft.pairing = best.pairing;
    tab.copies = best.draft;
  }
}

function pairWithin(drafts: readonly Draft[]): void {
  for (const draft of drafts) {
    if (draft.notation.length === 0 || draft.tablature.length === 0) continue;
    draft.pairing = pairTablature(draft.notation, draft.tablature, tuningOf(draft) ?? standardTuning);
  }
}

const leastSupport = 0.6;

/** The distance from written pitches to strings and frets on which most notes agree. */
function fretDistanceOf(draft: Draft, tuning: Tuning): { readonly distance: number; readonly support: number } | null {
  const all = draft.notation.length > 0 ? draft.notation : draft.tablature;
  const chains = draft.raw.strings === null ? all : all.filter((chain) => firstHead(chain).strings === null);
  const distances: number[] = [];
  for (const chain of chains) {
    const head = firstHead(chain);
    const midi = head.fingerboard === null ? null : writtenMidi(head);
    const fretted = midi === null ? null : fingerboardMidi(chain, tuning);
    if (midi !== null && fretted !== null) distances.push(fretted - midi);
  }
  const own = mostFrequent(distances);
  if (own !== null && own.count >= leastSupport * distances.length)
    return { distance: own.value, support: own.count / distances.length };
  const { pairing } = draft;
  const isTrusted =
    pairing !== null &&
    pairing.agreement >= leastSupport &&
    [...pairing.copyOf.keys()].some((chain) => firstHead(chain).fingerboard !== null);
  return isTrusted ? { distance: pairing.distance, support: pairing.agreement } : null;
}

const capoOf = ({ raw, copiedBy, copies }: Draft): number =>
  raw.capoFret ?? copiedBy?.raw.capoFret ?? copies?.raw.capoFret ?? 0;

const noChoice: SoundingChoice = { octave: null, capo: null };

function shiftOf(draft: Draft, tuning: Tuning | null, choice: SoundingChoice): SoundingShift {
  const frets = tuning === null ? null : fretDistanceOf(draft, tuning);
  return soundingShiftOf({
    transposeSemitones: draft.raw.transposeSemitones,
    clefOctave: draft.raw.clefOctave,
    fretDistance: frets?.distance ?? null,
    fretSupport: frets?.support ?? 0,
    choice: draft.isFretted ? choice : noChoice,
    capoFret: capoOf(draft),
    isGuitarNotation:
      draft.notation.length > 0 && (isGuitarNamed(draft.raw) || (draft.isFretted && tuning?.length === 6)),
  });
}

function reportFindings({ findings }: SoundingShift, { raw }: Draft, log: IssueLog): void {
  const place = { partName: raw.name, barIndex: 0, offsetTicks: 0 };
  for (const { code, detail } of findings)
    log.add(code, code === 'string-fret-disagree' ? 'warning' : 'note', detail, place);
}

/** Chains after a move of the capo with the places that they are fretted at, and how far those lie from the written pitches. */
function distancesAfterMove(draft: Draft, tuning: Tuning): number[] {
  const pairs: (readonly [Chain, Chain])[] = [
    ...draft.notation.map((chain) => [chain, chain] as const),
    ...(draft.pairing?.copyOf ?? []),
  ];
  return pairs.flatMap(([placed, chain]) => {
    const { fingerboard, strings } = firstHead(placed);
    const midi = writtenMidi(firstHead(chain));
    const fretted = fingerboard === null ? null : fingerboardMidi(placed, tuning);
    return midi === null || fretted === null || strings === null || strings.capoBy === 0 ? [] : [fretted - midi];
  });
}

/** Whether pitches sound higher where the capo moves up: they do in music written in shapes, unless its transposition says so already. Strings and frets after the move tell; else what was believed before it. */
function movesWithCapo(draft: Draft, tuning: Tuning | null, { capo, shift }: SoundingShift): boolean {
  if (capo?.by === 'transposition') return false;
  if (capo?.by === 'person') return capo.are === 'shapes';
  const capoFret = capo?.are === 'shapes' ? capoOf(draft) : 0;
  const isMoved = (draft.raw.strings ?? draft.copiedBy?.raw.strings ?? null) !== null;
  const told = tuning === null || !isMoved ? [] : distancesAfterMove(draft, tuning);
  const shapes = told.filter((distance) => (distance - (shift - capoFret)) % 12 === 0).length;
  return told.length === 0 ? capo?.are !== 'sounding' : 2 * shapes >= told.length;
}

function copiesByOriginal(pairing: Pairing | null): Map<Chain, Chain[]> {
  const copies = new Map<Chain, Chain[]>();
  for (const [copy, original] of pairing?.copyOf ?? []) copies.set(original, [...(copies.get(original) ?? []), copy]);
  return copies;
}

function soundingChains(draft: Draft): readonly Chain[] {
  if (draft.copies !== null) return draft.copies.pairing?.unpaired ?? [];
  if (draft.pairing === null) return [...draft.notation, ...draft.tablature];
  return draft.copiedBy === null ? [...draft.notation, ...draft.pairing.unpaired] : draft.notation;
}

/** The chains that say how the strings are set up: those of the tablature where there is one. */
function stringedChains({ notation, tablature, copiedBy }: Draft): readonly Chain[] {
  const strings = [...tablature, ...(copiedBy?.tablature ?? [])];
  return strings.length > 0 ? strings : notation;
}

function layoutOf(draft: Draft, choices: SoundingChoices, log: IssueLog): PartLayout {
  const { raw } = draft;
  const tuning = tuningOf(draft);
  const isTuningGiven = raw.tuning !== null || (draft.copiedBy ?? draft.copies)?.raw.tuning;
  if (tuning !== null && !isTuningGiven && draft.copies === null) {
    log.add('tuning-assumed', 'note', 'The file gives no tuning; standard tuning was assumed.', {
      partName: raw.name,
      barIndex: 0,
      offsetTicks: 0,
    });
  }
  if (raw.partialCapo !== null) {
    log.add('capo-assumed', 'note', `“${raw.partialCapo}” names a capo on some strings only; it moves no pitch.`, {
      partName: raw.name,
      barIndex: 0,
      offsetTicks: 0,
    });
  }
  if (draft.pairing !== null) reportPairing(draft.pairing, draft.notation, log);
  const sounding = shiftOf(draft, tuning, choiceFor(choices, (draft.copies ?? draft).raw.id));
  reportFindings(sounding, draft, log);
  const setup = { tuning, capoFret: capoOf(draft) };
  const retunings = retuningsOf(stringedChains(draft), setup);
  const part: Part = {
    id: raw.id,
    name: raw.name,
    staves: staffKindsOf(raw),
    ...setup,
    ...(retunings.length === 0 ? {} : { retunings }),
    soundingShift: sounding.shift,
    pairedWith: draft.copies?.raw.id ?? null,
  };
  return {
    raw,
    part,
    chains: soundingChains(draft),
    copies: copiesByOriginal(draft.pairing),
    isFretted: draft.isFretted,
    sounding,
    soundingByFile: shiftOf(draft, tuning, noChoice),
    movesWithCapo: movesWithCapo(draft, tuning, sounding),
  };
}

/** The parts with tablature set beside the notation that it copies, within a part or across two. */
export function layOutParts(
  parts: readonly RawPart[],
  bars: readonly Bar[],
  choices: SoundingChoices,
  log: IssueLog,
): PartLayout[] {
  const drafts = parts.map((raw) => draftOf(raw, bars, log));
  pairWithin(drafts);
  pairAcross(drafts);
  return drafts.map((draft) => layoutOf(draft, choices, log));
}
