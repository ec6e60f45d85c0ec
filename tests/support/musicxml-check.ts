import { parseXml } from '../../music/formats/xml/parse-xml.ts';
import { elementsOf, textOf, type XmlElement } from '../../music/formats/xml/tree.ts';
import { elementRules, type ElementRule } from './musicxml-order.ts';

const compiled = new Map<string, RegExp>();

/** The content model of an element as a pattern over its children's names, each followed by a blank. */
function contentPattern(content: string): RegExp {
  const pieces = content.split(/([a-z][\w-]*)/i);
  const source = pieces.map((piece, index) => (index % 2 === 1 ? `(?:${piece} )` : piece.replace(/\s+/g, ''))).join('');
  const pattern = compiled.get(content) ?? new RegExp(`^(?:${source})$`);
  compiled.set(content, pattern);
  return pattern;
}

function attributeFaults({ name, attributes }: XmlElement, rule: ElementRule): string[] {
  const missing = (rule.required ?? []).filter((key) => attributes[key] === undefined);
  const wrong = Object.entries(attributes).filter(([key, value]) => !(rule.attributes?.[key]?.test(value) ?? false));
  return [
    ...missing.map((key) => `<${name}> lacks ${key}`),
    ...wrong.map(([key, value]) => `<${name}> may not have ${key}="${value}"`),
  ];
}

function faultsOf(element: XmlElement, faults: string[]): void {
  const rule = elementRules[element.name];
  if (rule === undefined) {
    faults.push(`<${element.name}> is not among the rules`);
    return;
  }
  const names = elementsOf(element)
    .map(({ name }) => `${name} `)
    .join('');
  if (!contentPattern(rule.content ?? '').test(names)) faults.push(`<${element.name}> holds: ${names.slice(0, 200)}`);
  const text = textOf(element);
  if (rule.text === undefined ? text !== '' : !rule.text.test(text)) faults.push(`<${element.name}> says “${text}”`);
  faults.push(...attributeFaults(element, rule));
  for (const child of elementsOf(element)) faultsOf(child, faults);
}

/** Ids must be alone in their document, and instruments must be listed. **Source** XML Schema, xs:ID and xs:IDREF. */
function idFaults(root: XmlElement): string[] {
  const ids = new Set<string>();
  const faults: string[] = [];
  const visit = (element: XmlElement): void => {
    const { id } = element.attributes;
    const isReference = element.name === 'instrument' || element.name === 'part';
    if (id !== undefined && isReference && !ids.has(id)) faults.push(`<${element.name}> names ${id}, which is nowhere`);
    if (id !== undefined && !isReference && ids.has(id)) faults.push(`${id} stands twice`);
    if (id !== undefined) ids.add(id);
    elementsOf(element).forEach(visit);
  };
  visit(root);
  return faults;
}

/** What of a MusicXML text breaks the rules of the elements that Heddle writes; empty for a valid document. */
export function musicXmlFaults(xml: string): readonly string[] {
  const document = parseXml(xml);
  if (!document.ok) return [document.refusal.detail];
  const faults: string[] = [];
  faultsOf(document.value.root, faults);
  return [...faults, ...idFaults(document.value.root)];
}
