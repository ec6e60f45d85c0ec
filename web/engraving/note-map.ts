import type { GraphicalMeasure, GraphicalNote, OpenSheetMusicDisplay } from 'opensheetmusicdisplay';
import { headId, type HeadId } from '../../music/index.ts';

/** One head as the engraver drew it. */
export interface MappedHead {
  readonly head: HeadId;
  readonly kind: 'head' | 'digit';
  readonly element: SVGGraphicsElement;
  /** The index of its system in the drawn sheet. */
  readonly measure: GraphicalMeasure;
}

interface XmlReader {
  currentNote: object | undefined;
  read: (node: { readonly elem: Element }, ...rest: readonly unknown[]) => object | undefined;
}

interface DrawnNote {
  readonly attrs: { readonly id: string; readonly el?: Element };
}

type WithDrawing = GraphicalNote & { readonly vfnote?: readonly [DrawnNote, number] };

const elementOfNote = new WeakMap<object, Element>();
const watched = new WeakSet<object>();

/**
 * Makes the engraver remember which XML element each of its notes was read from; it drops the id itself.
 * Once per loaded library; a second call changes nothing.
 */
export function rememberXmlOfNotes(reader: { readonly prototype: object }): void {
  const prototype = reader.prototype as XmlReader;
  if (watched.has(prototype)) return;
  watched.add(prototype);
  const original = prototype.read;
  prototype.read = function readAndRemember(this: XmlReader, node, ...rest) {
    const before = this.currentNote;
    const note = original.call(this, node, ...rest);
    if (note !== undefined && note !== before) elementOfNote.set(note, node.elem);
    return note;
  };
}

/** Every drawn head of the sheet with the id that its `<note>` carries; hidden notes are left out. To be rebuilt after every render. */
export function mapHeads(osmd: OpenSheetMusicDisplay): readonly MappedHead[] {
  return measuresOf(osmd).flatMap((measure) =>
    measure.staffEntries.flatMap((entry) =>
      entry.graphicalVoiceEntries.flatMap((voice) => voice.notes.flatMap((note) => mappedHead(note, measure) ?? [])),
    ),
  );
}

function measuresOf(osmd: OpenSheetMusicDisplay): readonly GraphicalMeasure[] {
  const rows: readonly (readonly (GraphicalMeasure | undefined)[])[] = osmd.GraphicSheet.MeasureList;
  return rows.flatMap((row) => row.filter((measure) => measure !== undefined));
}

function mappedHead(note: WithDrawing, measure: GraphicalMeasure): MappedHead | null {
  const id = elementOfNote.get(note.sourceNote)?.getAttribute('id') ?? null;
  if (id === null || !note.sourceNote.PrintObject || note.sourceNote.isRest() || note.vfnote === undefined) return null;
  const [drawing, index] = note.vfnote;
  const group = drawing.attrs.el ?? document.getElementById(`vf-${drawing.attrs.id}`);
  if (group === null) return null;
  const isDigit = group.classList.contains('vf-tabnote');
  const candidates = isDigit ? digitsOf(group) : [...group.querySelectorAll(':scope > .vf-note > .vf-notehead')];
  const element = candidates[index];
  if (element === undefined) return null;
  return { head: headId(id), kind: isDigit ? 'digit' : 'head', element: element as SVGGraphicsElement, measure };
}

const digitsOf = (group: Element): readonly Element[] =>
  [...group.children].filter((child) => child.tagName === 'text' || child.tagName === 'path');
