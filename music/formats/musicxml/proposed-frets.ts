import { childOf, childrenOf, element, textOf, type XmlElement } from '../xml/tree.ts';

const fieldName = 'heddle-frets-in-brackets';
const fieldText = 'proposed';

/** The words over a tablature whose frets in brackets are proposed. */
export const proposedFretsWords = 'Frets in brackets are proposed';

/** Tells Heddle what frets in brackets are, since brackets may be meant otherwise. **Source** MusicXML 4.0, miscellaneous-field. */
export const proposedFretsField = (): XmlElement => element('miscellaneous-field', { name: fieldName }, [fieldText]);

/** Whether the frets in brackets of a document are proposed ones, and not its own. */
export function proposesFretsInBrackets(root: XmlElement): boolean {
  const miscellaneous = childOf(childOf(root, 'identification'), 'miscellaneous');
  const fields = miscellaneous === undefined ? [] : childrenOf(miscellaneous, 'miscellaneous-field');
  return fields.some((field) => field.attributes['name'] === fieldName && textOf(field) === fieldText);
}
