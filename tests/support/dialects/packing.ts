import { strToU8, zipSync } from 'fflate';
import {
  childrenOf,
  isElement,
  withAttributes,
  withChildren,
  type XmlElement,
} from '../../../music/formats/xml/tree.ts';
import { textOfRoot } from './edit-tree.ts';

const containerXml =
  '<?xml version="1.0" encoding="UTF-8"?><container><rootfiles>' +
  '<rootfile full-path="music/score.musicxml" media-type="application/vnd.recordare.musicxml+xml"/></rootfiles></container>';

/** Plain UTF-8. */
export const asText = (root: XmlElement): Uint8Array => strToU8(textOfRoot(root));

/** A packed .mxl file. */
export const asPacked = (root: XmlElement): Uint8Array =>
  zipSync({ 'META-INF/container.xml': strToU8(containerXml), 'music/score.musicxml': asText(root) });

/** UTF-16 with a byte order mark. */
export function asUtf16(root: XmlElement, isLittleEndian: boolean): Uint8Array {
  const text = `\ufeff${textOfRoot(root).replace('encoding="UTF-8"', 'encoding="UTF-16"')}`;
  const bytes = new Uint8Array(text.length * 2);
  const view = new DataView(bytes.buffer);
  for (let index = 0; index < text.length; index += 1)
    view.setUint16(index * 2, text.charCodeAt(index), isLittleEndian);
  return bytes;
}

/** The same score with measures that hold parts. */
export function asTimewise(root: XmlElement): XmlElement {
  const parts = childrenOf(root, 'part').map((part) => ({ part, measures: childrenOf(part, 'measure') }));
  const header = root.children.filter((node) => !isElement(node, 'part'));
  const measures = (parts[0]?.measures ?? []).map((measure, index) =>
    withChildren(
      measure,
      parts.map(({ part, measures: own }) => ({ ...withAttributes(part, {}), children: own[index]?.children ?? [] })),
    ),
  );
  return { ...withChildren(root, [...header, ...measures]), name: 'score-timewise' };
}
