import { element, type XmlElement } from '../xml/tree.ts';

/** An element that holds only text. */
export const textElement = (
  name: string,
  text: string | number,
  attributes: Readonly<Record<string, string>> = {},
): XmlElement => element(name, attributes, [String(text)]);
