import { element, type XmlElement } from '../xml/tree.ts';

/** An element that holds only text. */
export const textElement = (name: string, text: string | number): XmlElement => element(name, {}, [String(text)]);
