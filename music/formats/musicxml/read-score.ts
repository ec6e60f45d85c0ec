import type { HeadId, PartId } from '../../basis/ids.ts';
import type { Issue, WithIssues } from '../../basis/issue.ts';
import { refused, ok, type Result } from '../../basis/result.ts';
import { noMarks } from '../../score/marks.ts';
import type { Score } from '../../score/score.ts';
import { identifiedText } from '../xml/identified-text.ts';
import { childOf, childrenOf, childText, textOf, type XmlElement } from '../xml/tree.ts';
import { barsOf, keyPartOf, reportBarLengths, withSoundingKeys } from './bars.ts';
import { endingsOf, reportEndings } from './endings.ts';
import { dynamicsOf, restsOf, temposOf } from './expression.ts';
import { gracesOf, idsOfAllHeads } from './graces.ts';
import { idOfHead, idsAsWritten, newIdsOf, numberAll, type Identity } from './identity.ts';
import { IssueLog } from './issue-log.ts';
import { reportJumps } from './jumps.ts';
import { marksOf } from './marks.ts';
import { noteTableOf } from './note-table.ts';
import { layOutParts, type PartLayout } from './part-layout.ts';
import { proposesFretsInBrackets } from './proposed-frets.ts';
import type { RawHead, RawPart } from './raw-part.ts';
import { readParts } from './read-part.ts';
import { choicesIn, withChoices, type SoundingChoice, type SoundingChoices } from './sounding-choice.ts';
import type { SoundingShift } from './sounding-shift.ts';
import { openScoreFile, scoreDocumentOf } from './score-document.ts';
import { timeGridOf, type TimeGrid } from './time-grid.ts';

/** Where a file comes from and which numbers its heads and bars get first. */
export interface ScoreSource {
  readonly fileName: string;
  readonly firstNoteNumber: number;
  readonly firstBarNumber: number;
  /** A person's word on the octaves from written to sounding pitch, for all parts with frets; it stays in the document. */
  readonly octave?: number | undefined;
  /** A person's word on what the pitches of music with a capo are, for all parts. */
  readonly capo?: 'shapes' | 'sounding' | undefined;
  /** A person's word on single parts, which goes before that on all. */
  readonly ofParts?: ReadonlyMap<PartId, SoundingChoice> | undefined;
}

/** How the written pitches of a part with frets were taken to sound, and what was believed for it; a person may choose otherwise. */
export interface SoundingReading extends SoundingBelief {
  readonly part: PartId;
  /** Where a person chose: what the file alone gives to believe. */
  readonly byFile?: SoundingBelief;
}

type SoundingBelief = Pick<SoundingShift, 'octave' | 'octaveBy' | 'capo'>;

/** A score file as it was read: the score, the document with ids, and what was found on the way. */
export interface ReadScore {
  readonly score: Score;
  readonly normalisedXml: string;
  /** The ids that heads had in the file itself. */
  readonly sourceIds: ReadonlyMap<HeadId, string>;
  readonly nextNoteNumber: number;
  readonly nextBarNumber: number;
  /** Of each part with frets that is written as notes. */
  readonly sounding: readonly SoundingReading[];
  readonly issues: readonly Issue[];
}

interface RawScore {
  readonly root: XmlElement;
  readonly grid: TimeGrid;
  readonly parts: readonly RawPart[];
  readonly log: IssueLog;
}

function rawScoreOf(root: XmlElement, repairs: readonly Issue[]): RawScore {
  const log = new IssueLog();
  for (const { code, severity, detail } of repairs) log.add(code, severity, detail);
  const grid = timeGridOf(root);
  if (!grid.isExact)
    log.add(
      'value-repaired',
      'warning',
      'The file’s divisions of time have no common grid; lengths were rounded to the nearest tick.',
    );
  return { root, grid, parts: readParts(root, grid, log), log };
}

const titleOf = (root: XmlElement): string =>
  childText(root, 'movement-title') || childText(childOf(root, 'work'), 'work-title');

function composerOf(root: XmlElement): string {
  const identification = childOf(root, 'identification');
  const creators = identification === undefined ? [] : childrenOf(identification, 'creator');
  return textOf(creators.find((creator) => creator.attributes['type'] === 'composer'));
}

const beliefOf = ({ octave, octaveBy, capo }: SoundingShift): SoundingBelief => ({ octave, octaveBy, capo });
const isChosen = ({ octaveBy, capo }: SoundingShift): boolean => octaveBy === 'person' || capo?.by === 'person';

/** Tablature needs no reading: its frets are the pitches. A part whose pitches a person may choose to read otherwise is one with notes. */
const soundingReadings = (layouts: readonly PartLayout[]): SoundingReading[] =>
  layouts
    .filter(({ isFretted, part }) => isFretted && part.pairedWith === null && part.staves.includes('notation'))
    .map(({ part, sounding, soundingByFile }) => ({
      part: part.id,
      ...beliefOf(sounding),
      ...(isChosen(sounding) ? { byFile: beliefOf(soundingByFile) } : {}),
    }));

interface LaidOut extends WithIssues<Score> {
  readonly sounding: readonly SoundingReading[];
}

function scoreOf({ root, grid, parts, log }: RawScore, identity: Identity): LaidOut {
  const { ticksPerQuarter } = grid;
  const endings = endingsOf(parts);
  const written = barsOf(parts, endings, ticksPerQuarter, (index) => identity.ofBar[index] ?? `b${index + 1}`);
  reportEndings(endings, written, parts[0]?.name ?? '', log);
  reportJumps(written, parts[0]?.name ?? '', log);
  reportBarLengths(parts, written, ticksPerQuarter, log);
  const layouts = layOutParts(
    parts,
    written,
    choicesIn(
      root,
      parts.map(({ id }) => id),
    ),
    log,
  );
  const keyPart = layouts.find(({ raw }) => raw === keyPartOf(parts));
  const bars = withSoundingKeys(written, keyPart?.part.soundingShift ?? 0);
  const idOf = (head: RawHead): HeadId => idOfHead(identity, head);
  const notes = noteTableOf(layouts, { bars, idOf, bracketsPropose: proposesFretsInBrackets(root), log });
  const graces = gracesOf(layouts, bars, idOf, log);
  const score: Score = {
    title: titleOf(root),
    composer: composerOf(root),
    ticksPerQuarter,
    parts: layouts.map(({ part }) => part),
    bars,
    notes,
    graces,
    rests: restsOf(layouts, bars),
    tempos: temposOf(parts, bars),
    dynamics: dynamicsOf(layouts, bars),
    ...marksOf({ layouts, bars, idOf, idsOfAll: () => idsOfAllHeads(layouts, graces, idOf), keyPart, log }),
  };
  return { value: score, issues: log.issues(bars, ticksPerQuarter), sounding: soundingReadings(layouts) };
}

const choicesOf = ({ octave, capo, ofParts }: ScoreSource): SoundingChoices => ({
  all: { octave: octave ?? null, capo: capo ?? null },
  ofParts: ofParts ?? new Map<PartId, SoundingChoice>(),
});

/** A score file, packed or not, partwise or timewise, as score and as normalised document. Heads get ids n1, n2 … and bars b1, b2 … in reading order. **Errors** in the issues: `file-unreadable`, `file-unsupported`, `file-too-large`, `document-type-refused`, `markup-broken`, `nesting-too-deep`, `too-many-notes`, `no-music`. **Source** MusicXML 4.0. */
export function readMusicXml(bytes: Uint8Array, source: ScoreSource): Result<ReadScore, readonly Issue[]> {
  const document = openScoreFile(bytes);
  if (!document.ok) return refused([document.refusal]);
  const { value: opened, issues: repairs } = document.value;
  const chosen = { ...opened, root: withChoices(opened.root, choicesOf(source)) };
  const raw = rawScoreOf(chosen.root, repairs);
  const identity = numberAll(chosen, raw.parts, { note: source.firstNoteNumber, bar: source.firstBarNumber });
  const { value: score, issues, sounding } = scoreOf(raw, identity);
  const normalisedXml = identifiedText(chosen, newIdsOf(chosen.root, raw.parts, identity));
  const { sourceIds, nextNoteNumber, nextBarNumber } = identity;
  return ok({ score, normalisedXml, sourceIds, nextNoteNumber, nextBarNumber, sounding, issues });
}

const emptyScore: Score = {
  title: '',
  composer: '',
  ticksPerQuarter: 1,
  parts: [],
  bars: [],
  notes: [],
  graces: [],
  rests: [],
  tempos: [],
  dynamics: [],
  ...noMarks,
};

/** The score of a normalised document, its ids as they stand; equal to the score that the document was first read as. A document that cannot be read gives an empty score and the reason. */
export function readNormalised(xml: string): WithIssues<Score> {
  const document = scoreDocumentOf(xml);
  if (!document.ok) return { value: emptyScore, issues: [document.refusal] };
  const { value: opened, issues: repairs } = document.value;
  const raw = rawScoreOf(opened.root, repairs);
  const { value, issues } = scoreOf(raw, idsAsWritten(opened, raw.parts, raw.log));
  return { value, issues };
}
