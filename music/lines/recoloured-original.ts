import type { LineId } from '../basis/ids.ts';
import { activeLines, type Split } from '../operations/split.ts';
import type { Score } from '../score/score.ts';
import { openDocument } from '../formats/musicxml/excerpt.ts';
import { serialiseXml } from '../formats/xml/serialise-xml.ts';
import { element, isElement, type XmlElement, type XmlNode } from '../formats/xml/tree.ts';

/** What a head gets from its line. */
interface HeadLook {
  readonly colour: string | null;
  readonly voice: string;
}

function looksOfHeads(
  score: Pick<Score, 'notes' | 'graces'>,
  split: Pick<Split, 'lines' | 'marks'>,
  colours: ReadonlyMap<LineId, string>,
): ReadonlyMap<string, HeadLook> {
  const numbers = new Map(activeLines(split).map(({ id }, index) => [id, index + 1]));
  const looks = new Map<string, HeadLook>();
  const give = (note: { readonly id: Score['notes'][number]['id'] }, heads: readonly string[]): void => {
    const line = split.marks.get(note.id)?.lines.find((id) => numbers.has(id));
    if (line === undefined) return;
    const look = { colour: colours.get(line) ?? null, voice: String(numbers.get(line)) };
    for (const head of heads) looks.set(head, look);
  };
  for (const note of score.notes) give(note, note.heads);
  for (const grace of score.graces) give({ id: grace.main }, grace.heads);
  return looks;
}

/** What stands before the voice in a note. **Source** MusicXML 4.0, note: the order of elements. */
const beforeVoice = new Set([
  ...['grace', 'cue', 'chord', 'pitch', 'unpitched', 'rest', 'duration', 'tie', 'instrument', 'footnote', 'level'],
]);

function withVoice(children: readonly XmlNode[], voice: string): readonly XmlNode[] {
  const voiceElement = element('voice', {}, [voice]);
  if (children.some((node) => isElement(node, 'voice')))
    return children.map((node) => (isElement(node, 'voice') ? voiceElement : node));
  const at = children.findLastIndex(
    (node) => typeof node !== 'string' && node.kind === 'element' && beforeVoice.has(node.name),
  );
  return [...children.slice(0, at + 1), voiceElement, ...children.slice(at + 1)];
}

/** A colour as the schema writes it. **Source** MusicXML 4.0, color: hexadecimal digits in capitals. */
const schemaColour = (colour: string): string => colour.toUpperCase();

function noteLike(note: XmlElement, { colour, voice }: HeadLook): XmlElement {
  const attributes = colour === null ? note.attributes : { ...note.attributes, color: schemaColour(colour) };
  return { ...note, attributes, children: withVoice(note.children, voice) };
}

function recoloured(node: XmlNode, looks: ReadonlyMap<string, HeadLook>): XmlNode {
  if (typeof node === 'string' || node.kind !== 'element') return node;
  if (node.name !== 'note') return { ...node, children: node.children.map((child) => recoloured(child, looks)) };
  const look = looks.get(node.attributes['id'] ?? '');
  return look === undefined ? node : noteLike(node, look);
}

/** The original document with each head in the colour of its line and in a voice with the line's number, from 1 in the split's order; nothing else is changed. A note on several lines is in the first of them; a note on none stays as it is, and a grace note follows its main note. **Errors** throws where the text is no score, which only a bug of ours can make of a normalised document. */
export function recolouredOriginal(
  normalisedXml: string,
  score: Pick<Score, 'notes' | 'graces'>,
  split: Pick<Split, 'lines' | 'marks'>,
  colours: ReadonlyMap<LineId, string>,
): string {
  const { document } = openDocument(normalisedXml);
  const looks = looksOfHeads(score, split, colours);
  return serialiseXml({ ...document, root: recoloured(document.root, looks) as XmlElement });
}
