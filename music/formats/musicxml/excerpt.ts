import { assert } from '../../basis/assert.ts';
import type { BarId, PartId } from '../../basis/ids.ts';
import { serialiseXml } from '../xml/serialise-xml.ts';
import {
  childrenOf,
  element,
  isElement,
  withChildren,
  type XmlDocument,
  type XmlElement,
  type XmlNode,
} from '../xml/tree.ts';
import { attributesElement, noState, passingAttributes, stateAfter, type AttributeState } from './attribute-state.ts';
import { withCutNotes } from './note-edges.ts';
import { scoreDocumentOf } from './score-document.ts';
import { closingDirections, noSpans, openingDirections, spansAfter, type OpenSpans } from './spans.ts';

interface OpenMeasure {
  readonly measure: XmlElement;
  /** In force before the measure begins. */
  readonly state: AttributeState;
  readonly spansBefore: OpenSpans;
  readonly spansAfter: OpenSpans;
}

interface OpenPart {
  readonly element: XmlElement;
  readonly measures: readonly OpenMeasure[];
}

/** A normalised document read once, from which many excerpts can be cut. */
export interface ScoreDocument {
  readonly document: XmlDocument;
  readonly parts: readonly OpenPart[];
  readonly indexOfBar: ReadonlyMap<string, number>;
}

/** Which parts an excerpt holds; all where none are named. */
export interface ExcerptOptions {
  readonly parts?: readonly PartId[];
}

function openPart(part: XmlElement): OpenPart {
  let state = noState;
  let spans = noSpans;
  const measures = childrenOf(part, 'measure').map((measure): OpenMeasure => {
    const opened = { measure, state, spansBefore: spans, spansAfter: spansAfter(spans, measure) };
    for (const attributes of childrenOf(measure, 'attributes')) state = stateAfter(state, attributes);
    spans = opened.spansAfter;
    return opened;
  });
  return { element: part, measures };
}

/** A normalised document, ready for excerpts. **Errors** throws where the text is no score, which only a bug of ours can make of a normalised document. */
export function openDocument(normalisedXml: string): ScoreDocument {
  const document = scoreDocumentOf(normalisedXml);
  assert(document.ok, 'a normalised document that is no score');
  const { value: opened } = document.value;
  const parts = childrenOf(opened.root, 'part').map(openPart);
  const indexOfBar = new Map<string, number>();
  for (const { measures } of parts) {
    measures.forEach(({ measure }, index) => {
      const { id } = measure.attributes;
      if (id !== undefined) indexOfBar.set(id, index);
    });
  }
  return { document: opened, parts, indexOfBar };
}

const timed = new Set(['note', 'backup', 'forward']);

/** The first measure with everything in force said in one element at its start. */
function openedMeasure({ measure, state, spansBefore }: OpenMeasure): XmlElement {
  const firstTimed = measure.children.findIndex((node) => isElement(node) && timed.has(node.name));
  const leading = measure.children.slice(0, firstTimed < 0 ? measure.children.length : firstTimed);
  const rest = measure.children.slice(leading.length);
  const own = leading.filter((node): node is XmlElement => isElement(node, 'attributes'));
  const attributes = attributesElement(own.reduce(stateAfter, state), own.flatMap(passingAttributes));
  const others = leading.filter((node) => !isElement(node, 'attributes'));
  const afterPrint = others.findLastIndex((node) => isElement(node, 'print')) + 1;
  const opening = openingDirections(spansBefore);
  return withChildren(measure, [
    ...others.slice(0, afterPrint),
    attributes,
    ...others.slice(afterPrint),
    ...opening,
    ...rest,
  ]);
}

const isBarline = (node: XmlNode, location: string): node is XmlElement =>
  isElement(node, 'barline') && (node.attributes['location'] ?? 'right') === location;

function withEnding(barline: XmlElement, ending: XmlElement): XmlElement {
  const before = barline.children.filter((node) => !isElement(node, 'repeat'));
  return withChildren(barline, [...before, ending, ...childrenOf(barline, 'repeat')]);
}

function withEndingStart(measure: XmlElement, number: string | null): XmlElement {
  const startsOwn = childrenOf(measure, 'barline').some((barline) =>
    childrenOf(barline, 'ending').some((ending) => ending.attributes['type'] === 'start'),
  );
  if (number === null || startsOwn) return measure;
  const ending = element('ending', { number, type: 'start' });
  const at = measure.children.findIndex((node) => isBarline(node, 'left'));
  if (at >= 0)
    return withChildren(
      measure,
      measure.children.map((node, index) => (index === at ? withEnding(node as XmlElement, ending) : node)),
    );
  const place = measure.children.findIndex((node) => isElement(node, 'attributes')) + 1;
  const barline = element('barline', { location: 'left' }, [ending]);
  return withChildren(measure, [...measure.children.slice(0, place), barline, ...measure.children.slice(place)]);
}

function closedMeasure(measure: XmlElement, spans: OpenSpans): XmlElement {
  const right = measure.children.findIndex((node) => isBarline(node, 'right'));
  const body = right < 0 ? measure.children : measure.children.slice(0, right);
  const tail = right < 0 ? [] : measure.children.slice(right);
  const closing = closingDirections(spans);
  if (spans.ending === null) return withChildren(measure, [...body, ...closing, ...tail]);
  const ending = element('ending', { number: spans.ending, type: 'discontinue' });
  const [barline, ...others] = tail;
  const ended =
    barline === undefined
      ? element('barline', { location: 'right' }, [ending])
      : withEnding(barline as XmlElement, ending);
  return withChildren(measure, [...body, ...closing, ended, ...others]);
}

function partExcerpt({ element: part, measures }: OpenPart, from: number, to: number): XmlElement {
  const taken = measures.slice(from, to + 1);
  const [first] = taken;
  const last = taken.at(-1);
  if (first === undefined || last === undefined) return withChildren(part, []);
  const bodies = withCutNotes(taken.map(({ measure }) => measure));
  const opened = bodies.map((measure, index) =>
    index === 0 ? withEndingStart(openedMeasure({ ...first, measure }), first.spansBefore.ending) : measure,
  );
  const closed = opened.map((measure, index) =>
    index === opened.length - 1 ? closedMeasure(measure, last.spansAfter) : measure,
  );
  return withChildren(
    part,
    closed.flatMap((measure): XmlNode[] => ['\n', measure]),
  );
}

function partListOf(list: XmlElement, isWanted: (id: string | undefined) => boolean): XmlElement {
  const all = childrenOf(list, 'score-part').every((part) => isWanted(part.attributes['id']));
  const kept = list.children.filter(
    (node) =>
      all || (!isElement(node, 'part-group') && (!isElement(node, 'score-part') || isWanted(node.attributes['id']))),
  );
  return withChildren(list, kept);
}

/** A document of its own with some bars and parts of another: everything in force is carried into its first bar, what crosses its edges is closed or opened there, bar numbers and ids are kept. A bar that the document does not have stands for its first or last. */
export function excerptOf(
  source: string | ScoreDocument,
  bars: { readonly first: BarId; readonly last: BarId },
  options: ExcerptOptions = {},
): string {
  const { document, parts, indexOfBar } = typeof source === 'string' ? openDocument(source) : source;
  const from = indexOfBar.get(bars.first) ?? 0;
  const to = Math.max(from, indexOfBar.get(bars.last) ?? Infinity);
  const wanted = options.parts === undefined ? null : new Set<string>(options.parts);
  const isWanted = (id: string | undefined): boolean => wanted === null || (id !== undefined && wanted.has(id));
  const byElement = new Map(parts.map((part) => [part.element, part]));
  const children = document.root.children.flatMap((node): XmlNode[] => {
    if (!isElement(node)) return [node];
    if (node.name === 'credit') return [];
    if (node.name === 'part-list') return [partListOf(node, isWanted)];
    const part = byElement.get(node);
    if (part === undefined) return [node];
    return isWanted(node.attributes['id']) ? [partExcerpt(part, from, to)] : [];
  });
  return serialiseXml({ ...document, root: withChildren(document.root, children) });
}
