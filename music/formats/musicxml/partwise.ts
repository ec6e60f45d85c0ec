import { childrenOf, element, isElement, withAttributes, type XmlElement, type XmlNode } from '../xml/tree.ts';

const lineBreak = '\n';

/** A part that a measure does not name has an empty measure there, so that the bars of all parts stay side by side. */
function partsOfMeasures(measures: readonly XmlElement[]): XmlElement[] {
  const byPart = new Map<string, XmlElement[]>();
  measures.forEach((measure, index) => {
    for (const part of childrenOf(measure, 'part')) {
      const id = part.attributes['id'] ?? '';
      const list = byPart.get(id) ?? [];
      for (const missed of measures.slice(list.length, index)) list.push({ ...missed, children: [] });
      list.push({ ...measure, children: part.children });
      byPart.set(id, list);
    }
  });
  return [...byPart].map(([id, list]) =>
    element(
      'part',
      { id },
      list.flatMap((measure): XmlNode[] => [lineBreak, measure]),
    ),
  );
}

/** A timewise score as partwise: the same header, parts with the measures that belong to them. **Source** MusicXML 4.0, score-timewise. */
export function partwiseOf(root: XmlElement): XmlElement {
  if (root.name !== 'score-timewise') return root;
  const header = root.children.filter((node) => !isElement(node, 'measure'));
  const parts = partsOfMeasures(childrenOf(root, 'measure')).flatMap((part): XmlNode[] => [part, lineBreak]);
  return { ...withAttributes(root, {}), name: 'score-partwise', children: [...header, ...parts] };
}
