import createVerovioModule from 'verovio/wasm';
import { enableLogToBuffer, VerovioToolkit } from 'verovio/esm';
import { parseXml } from '../../music/formats/xml/parse-xml.ts';
import { serialiseXml } from '../../music/formats/xml/serialise-xml.ts';
import { childOf, isElement, withChildren, type XmlElement, type XmlNode } from '../../music/formats/xml/tree.ts';

/** A note as verovio (an independent reader of MusicXML, https://www.verovio.org) understands it. */
interface SecondNote {
  /** Its pitch as written; verovio's value for hits is 0. **Units** MIDI note numbers. */
  readonly writtenMidi: number;
  /** **Units** quarter notes. */
  readonly onsetQuarters: number;
  readonly lengthQuarters: number;
}

/** A document as verovio understands it. */
export interface SecondReading {
  /** Ids of all notes but grace notes, cue notes included. */
  readonly noteIds: ReadonlySet<string>;
  readonly graceCount: number;
  readonly restCount: number;
  /** Ids of notes that a tie from an earlier note leads to. */
  readonly tiedOn: ReadonlySet<string>;
  readonly notes: ReadonlyMap<string, SecondNote>;
  readonly log: string;
}

interface Times {
  readonly qfracOn?: readonly (readonly [number, number])[];
  readonly qfracDuration?: readonly (readonly [number, number])[];
  readonly qfracTiedDuration?: readonly (readonly [number, number])[];
}

const quarters = (fractions: readonly (readonly [number, number])[] | undefined): number => {
  const first = fractions?.[0];
  return first === undefined ? 0 : first[0] / first[1];
};

let toolkit: Promise<VerovioToolkit> | null = null;

async function openToolkit(): Promise<VerovioToolkit> {
  const module = await createVerovioModule();
  enableLogToBuffer(true, module);
  const opened = new VerovioToolkit(module);
  opened.setOptions({ breaks: 'none', inputFrom: 'musicxml', expandNever: true });
  return opened;
}

const idsIn = (mei: string, pattern: RegExp): string[] => [...mei.matchAll(pattern)].map((match) => match[1] ?? '');

function noteOf(reader: VerovioToolkit, id: string): SecondNote {
  const midi = reader.getMIDIValuesForElement(id) as { readonly pitch: number };
  const times = reader.getTimesForElement(id) as Times;
  return {
    writtenMidi: midi.pitch,
    onsetQuarters: quarters(times.qfracOn),
    lengthQuarters: quarters(times.qfracDuration) + quarters(times.qfracTiedDuration),
  };
}

/** Reads a MusicXML text with verovio. */
export async function secondReading(xml: string): Promise<SecondReading> {
  toolkit ??= openToolkit();
  const reader = await toolkit;
  const isRead = reader.loadData(xml);
  const mei = reader.getMEI({ noLayout: true });
  const log = reader.getLog();
  if (!isRead) throw new Error(`verovio cannot read the document: ${log}`);
  reader.renderToMIDI();
  const tags = [...mei.matchAll(/<note\b[^>]*>/g)].map(([tag]) => tag);
  const graces = tags.filter((tag) => tag.includes(' grace='));
  const plain = tags.filter((tag) => !tag.includes(' grace='));
  const ids = plain.flatMap((tag) => idsIn(tag, /xml:id="([^"]+)"/g));
  return {
    noteIds: new Set(ids),
    graceCount: graces.length,
    restCount: [...mei.matchAll(/<(?:rest|mRest)\b/g)].length,
    tiedOn: new Set(idsIn(mei, /<tie\b[^>]*endid="#([^"]+)"/g)),
    notes: new Map(ids.map((id) => [id, noteOf(reader, id)])),
    log,
  };
}

const isGraceNote = (node: XmlNode): boolean => isElement(node, 'note') && childOf(node, 'grace') !== undefined;
const isPlayedSign = (node: XmlNode): boolean => isElement(node, 'arpeggiate') || isElement(node, 'ornaments');

function plain(parent: XmlElement): XmlElement {
  const kept = parent.children.filter((node) => !isGraceNote(node) && !isPlayedSign(node));
  return withChildren(
    parent,
    kept.map((node) => (isElement(node) ? plain(node) : node)),
  );
}

/** A document without grace notes, arpeggio signs and ornaments, for which verovio changes the times of other notes. */
export function asWritten(xml: string): string {
  const document = parseXml(xml);
  if (!document.ok) throw new Error(document.refusal.detail);
  return serialiseXml({ ...document.value, root: plain(document.value.root) });
}
