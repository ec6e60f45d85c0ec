import type { GraphicalNote, OpenSheetMusicDisplay } from 'opensheetmusicdisplay';
import { engrave, loadEngraver } from '../../web/engraving/engraver.ts';
import { mapHeads, type MappedHead } from '../../web/engraving/note-map.ts';
import { readyForEngraver } from '../../web/engraving/strip-document.ts';

/** What was found on engraved strips; runs in a browser's page. */
export interface SeenHeads {
  readonly wanted: number;
  /** Notes that the XML prints and nothing was drawn for. */
  readonly missing: readonly string[];
  /** How many heads share an element with another one. */
  readonly shared: number;
  /** Heads that stand where their pitch does not. */
  readonly misplaced: readonly string[];
  readonly wrongDigits: readonly string[];
  /** Rests that the XML prints, and rests that stand on the page. */
  readonly restsWanted: number;
  readonly restsDrawn: number;
}

/** What this module puts on the page for tests to call. */
export interface WithLook {
  lookAtHeads: (xmls: readonly string[]) => Promise<SeenHeads>;
}

const letters = 'CDEFGAB';
const textOf = (note: Element, path: string): string => note.querySelector(path)?.textContent ?? '';

async function lookAtHeads(xmls: readonly string[]): Promise<SeenHeads> {
  const seen = {
    wanted: 0,
    missing: [] as string[],
    shared: 0,
    misplaced: [] as string[],
    wrongDigits: [] as string[],
    restsWanted: 0,
    restsDrawn: 0,
  };
  for (const xml of xmls) {
    const { notes, heads, restsWanted, restsDrawn } = await engraved(xml);
    const drawn = new Set<string>(heads.map((head) => head.head));
    const wanted = [...notes].filter(
      ([, note]) => note.querySelector('rest') === null && note.getAttribute('print-object') !== 'no',
    );
    seen.wanted += wanted.length;
    seen.missing.push(...wanted.map(([id]) => id).filter((id) => !drawn.has(id)));
    seen.shared += heads.length - new Set(heads.map((head) => head.element)).size;
    seen.misplaced.push(...misplaced(heads, notes));
    seen.restsWanted += restsWanted;
    seen.restsDrawn += restsDrawn;
    seen.wrongDigits.push(...wrongDigits(heads, notes));
  }
  return seen;
}

interface EngravedXml {
  readonly notes: ReadonlyMap<string, Element>;
  readonly heads: readonly MappedHead[];
  readonly restsWanted: number;
  readonly restsDrawn: number;
}

/** Whether a rest of the engraver's has ink on the page. */
function isDrawnRest(note: GraphicalNote): boolean {
  const { vfnote } = note as GraphicalNote & {
    readonly vfnote?: readonly [{ readonly attrs: { readonly id: string } }];
  };
  if (vfnote === undefined || !note.sourceNote.isRest() || !note.sourceNote.PrintObject) return false;
  return document.querySelector(`#vf-${vfnote[0].attrs.id} path`) !== null;
}

function drawnRests({ GraphicSheet: sheet }: OpenSheetMusicDisplay): number {
  const measures = sheet.MeasureList.flat().filter((measure) => (measure as typeof measure | undefined) !== undefined);
  const entries = measures.flatMap(({ staffEntries }) => staffEntries);
  return entries
    .flatMap((entry) => entry.graphicalVoiceEntries)
    .flatMap(({ notes }) => notes)
    .filter(isDrawnRest).length;
}

async function engraved(xml: string): Promise<EngravedXml> {
  const host = document.createElement('div');
  host.style.width = '1300px';
  document.body.replaceChildren(host);
  const source = new DOMParser().parseFromString(xml, 'application/xml');
  readyForEngraver(source, { bars: [], before: null });
  const notes = new Map([...source.querySelectorAll('note')].map((note) => [note.getAttribute('id') ?? '', note]));
  const osmd = await engrave(await loadEngraver(), host, source, {
    zoom: 1,
    barCount: 12,
    hasWordsAbove: false,
    fontFamily: 'sans-serif',
  });
  const rests = [...source.querySelectorAll('note > rest')];
  const restsWanted = rests.filter((rest) => rest.parentElement?.getAttribute('print-object') !== 'no').length;
  return { notes, heads: mapHeads(osmd), restsWanted, restsDrawn: drawnRests(osmd) };
}

function wrongDigits(heads: readonly MappedHead[], notes: ReadonlyMap<string, Element>): readonly string[] {
  return heads.flatMap(({ head, kind, element }) => {
    const note = notes.get(head);
    if (kind !== 'digit' || note === undefined || note.querySelector('notehead') !== null) return [];
    const fret = textOf(note, 'fret');
    return element.textContent.includes(fret) ? [] : [`${head}: ${element.textContent} for ${fret}`];
  });
}

/** Heads of one bar, staff and clef whose height does not follow their step: the place is compared with the bar's middle one. */
function misplaced(heads: readonly MappedHead[], notes: ReadonlyMap<string, Element>): readonly string[] {
  const places = new Map<string, { readonly id: string; readonly offset: number }[]>();
  for (const { head, kind, element } of heads) {
    const note = notes.get(head);
    if (kind === 'digit' || note === undefined || !isComparable(note)) continue;
    const place = `${note.closest('part')?.id ?? ''}/${note.closest('measure')?.id ?? ''}/${textOf(note, ':scope > staff')}`;
    const steps = 7 * Number(textOf(note, 'pitch > octave')) + letters.indexOf(textOf(note, 'pitch > step'));
    const { y, height } = element.getBBox();
    places.set(place, [...(places.get(place) ?? []), { id: head, offset: y + height / 2 + 5 * steps }]);
  }
  return [...places.values()].flatMap((list) => {
    const middle = list.map((each) => each.offset).sort((a, b) => a - b)[Math.floor(list.length / 2)] ?? 0;
    return list.filter((each) => Math.abs(each.offset - middle) > 1.5).map((each) => each.id);
  });
}

/** Pitched notes of full size in a bar without a change of clef, in a document without octave lines. */
function isComparable(note: Element): boolean {
  if (note.querySelector('pitch') === null || note.querySelector('grace, cue') !== null) return false;
  const changesClef =
    note.closest('measure')?.querySelector(':scope > :is(note, forward, backup) ~ attributes > clef') !== null;
  return !changesClef && note.ownerDocument.querySelector('octave-shift') === null;
}

(globalThis as unknown as WithLook).lookAtHeads = lookAtHeads;
