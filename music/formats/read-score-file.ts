import { strToU8 } from 'fflate';
import type { Issue, WithIssues } from '../basis/issue.ts';
import { ok, refused, type Result } from '../basis/result.ts';
import { abcToMusicXml } from './abc/abc-to-musicxml.ts';
import { fileError } from './file-issue.ts';
import { limits } from './limits.ts';
import type { GridKind } from './midi/beat-grid.ts';
import { midiToMusicXml } from './midi/midi-to-musicxml.ts';
import type { GridRegion } from './midi/quantise.ts';
import { readMusicXml, type ReadScore, type ScoreSource } from './musicxml/read-score.ts';
import { sniffFormat, type FileFormat, type Sniffed } from './sniff-format.ts';
import { textTabToMusicXml } from './text-tab/text-tab-to-musicxml.ts';
import { serialiseXml } from './xml/serialise-xml.ts';
import type { XmlElement } from './xml/tree.ts';

/** Where a file comes from, and how to read what its format leaves open. What does not belong to its format is ignored. */
export interface FileSource extends ScoreSource {
  /** The tune of an ABC file, by the number that its `X:` says, else by its place; the first where absent. */
  readonly tune?: number | undefined;
  /** How the time of a MIDI file is counted; `auto` where absent. */
  readonly grid?: GridKind | undefined;
  /** The strings of a text tablature, highest first; as its own labels say where absent. **Units** MIDI note numbers. */
  readonly tuning?: readonly number[] | undefined;
}

/** What the format left open, and how it was read. */
export interface FileChoices {
  /** ABC only: the tunes of the file, in its order. */
  readonly tunes?: readonly { readonly number: number; readonly title: string }[];
  /** MIDI only: the grid of each stretch of bars. */
  readonly grid?: readonly GridRegion[];
}

/** A score file of any format as it was read. */
export interface ReadFile extends ReadScore {
  readonly format: FileFormat;
  readonly choices: FileChoices;
}

interface FirstStep extends WithIssues<XmlElement> {
  readonly choices: FileChoices;
}

/** An absent option, not one that is undefined. */
function given<Key extends string, Value>(key: Key, value: Value | undefined): { readonly [name in Key]?: Value } {
  return value === undefined ? {} : ({ [key]: value } as { readonly [name in Key]: Value });
}

function midiStep(bytes: Uint8Array, { grid }: FileSource): FirstStep {
  const read = midiToMusicXml(bytes, given('grid', grid));
  return { value: read.value, issues: read.issues, choices: { grid: read.grid } };
}

const notUtf8: Issue = {
  code: 'value-repaired',
  where: { kind: 'file' },
  severity: 'note',
  detail: 'The text is not UTF-8; it was read as Windows-1252.',
};

function abcStep(text: string, { tune }: FileSource): FirstStep {
  const { value, issues, tunes } = abcToMusicXml(text, given('tune', tune));
  return { value, issues, choices: { tunes } };
}

function tabStep(text: string, { tuning }: FileSource): FirstStep {
  return { ...textTabToMusicXml(text, given('tuning', tuning)), choices: {} };
}

function textStep({ format, text, isUtf8 }: Extract<Sniffed, { text: string }>, source: FileSource): FirstStep {
  const step = (format === 'abc' ? abcStep : tabStep)(text, source);
  return isUtf8 ? step : { ...step, issues: [notUtf8, ...step.issues] };
}

/** The rest of the one road: the tree as a MusicXML file, whose issues come after those of the first step. */
function afterFirstStep(format: FileFormat, step: FirstStep, source: ScoreSource): Result<ReadFile, readonly Issue[]> {
  const errors = step.issues.filter(({ severity }) => severity === 'error');
  if (errors.length > 0) return refused(errors);
  const xml = serialiseXml({ doctype: null, before: [], root: step.value, after: [] });
  const read = readMusicXml(strToU8(xml), source);
  if (!read.ok) return refused([...step.issues, ...read.refusal]);
  return ok({ ...read.value, issues: [...step.issues, ...read.value.issues], format, choices: step.choices });
}

const unknownFormat = fileError(
  'file-unsupported',
  'The file is none of what Heddle reads: MusicXML, .mxl, MIDI, ABC or a text tablature.',
);

/** A score file of any format that Heddle reads, told by its bytes: MusicXML (packed or not), Standard MIDI, ABC, text tablature. All but MusicXML become a MusicXML document first, which is then read as any other, so that ids, versions and engraving are the same for all. **Errors** in the issues: those of the format's reader, `file-unsupported` where it is none of them, `file-too-large`. */
export function readScoreFile(bytes: Uint8Array, source: FileSource): Result<ReadFile, readonly Issue[]> {
  const sniffed = sniffFormat(bytes, source.fileName);
  if (sniffed === null) return refused([unknownFormat]);
  if (sniffed.format === 'musicxml') {
    const read = readMusicXml(bytes, source);
    return read.ok ? ok({ ...read.value, format: 'musicxml', choices: {} }) : read;
  }
  if (bytes.byteLength > limits.packedBytes)
    return refused([fileError('file-too-large', 'The file is larger than the 10 MB that it may have.')]);
  const step = 'text' in sniffed ? textStep(sniffed, source) : midiStep(bytes, source);
  return afterFirstStep(sniffed.format, step, source);
}
