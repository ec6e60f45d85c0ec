import { parseXml } from '../../music/formats/xml/parse-xml.ts';
import { elementsOf, type XmlElement, type XmlNode } from '../../music/formats/xml/tree.ts';
import { attributeGroups } from './musicxml-attributes.data.ts';
import { directionRules } from './musicxml-direction.data.ts';
import { frameRules } from './musicxml-frame.data.ts';
import { noteRules } from './musicxml-note.data.ts';
import type { ElementRule, ElementRules } from './musicxml-rule.ts';
import { simpleTypes, type SimpleType } from './musicxml-types.data.ts';

/** Every element of MusicXML 4.0 that may stand in a partwise score. */
export const elementRules: ElementRules = { ...frameRules, ...noteRules, ...directionRules };

interface AttributeRule {
  readonly pattern: RegExp;
  readonly isRequired: boolean;
}

/** A rule made ready: its content as a pattern over the children's names, each followed by a blank. */
interface ReadyRule {
  readonly content: RegExp;
  readonly text: RegExp | null;
  readonly attributes: ReadonlyMap<string, AttributeRule>;
}

function contentPattern(content: string): RegExp {
  const pieces = content.split(/([a-z][\w-]*)/i);
  const source = pieces.map((piece, index) => (index % 2 === 1 ? `(?:${piece} )` : piece.replace(/\s+/g, ''))).join('');
  return new RegExp(`^(?:${source})$`);
}

function typeNamed(name: string): RegExp {
  if (!(name in simpleTypes)) throw new Error(`no simple type is called ${name}`);
  return simpleTypes[name as SimpleType];
}

/** The attributes of a list with those of the groups that it names. */
function attributesNamed(list: string): (readonly [string, AttributeRule])[] {
  return list.split(' ').flatMap((entry): (readonly [string, AttributeRule])[] => {
    const [, name, required, type] = /^((?:xml:|xlink:)?[\w-]+)(!?):([\w-]+)$/.exec(entry) ?? [];
    if (name !== undefined && type !== undefined)
      return [[name, { pattern: typeNamed(type), isRequired: required === '!' }]];
    const group = attributeGroups[entry];
    if (group === undefined && entry !== '') throw new Error(`no group of attributes is called ${entry}`);
    return group === undefined ? [] : attributesNamed(group);
  });
}

const madeReady = ({ content, text, attributes }: ElementRule): ReadyRule => ({
  content: contentPattern(content),
  text: text === null ? null : simpleTypes[text],
  attributes: new Map(attributesNamed(attributes)),
});

const ready: ReadonlyMap<string, ReadyRule> = new Map(
  Object.entries(elementRules).map(([name, rule]) => [name, madeReady(rule)]),
);

/** Attributes of the XML namespaces are declared, not checked. */
const isDeclaration = (key: string): boolean => key === 'xmlns' || key.startsWith('xmlns:');

function attributeFaults({ name, attributes }: XmlElement, rule: ReadyRule): string[] {
  const missing = [...rule.attributes].filter(([key, { isRequired }]) => isRequired && attributes[key] === undefined);
  const wrong = Object.entries(attributes).filter(
    ([key, value]) => !isDeclaration(key) && !(rule.attributes.get(key)?.pattern.test(value) ?? false),
  );
  return [
    ...missing.map(([key]) => `<${name}> lacks ${key}`),
    ...wrong.map(([key, value]) => `<${name}> may not have ${key}="${value}"`),
  ];
}

/** What a node adds to the text of its parent. */
function textWithin(node: XmlNode): string {
  if (typeof node === 'string') return node;
  return node.kind === 'cdata' ? node.text : '';
}

function faultsOf(element: XmlElement, faults: string[]): void {
  const rule = ready.get(element.name);
  if (rule === undefined) {
    faults.push(`<${element.name}> is not an element of MusicXML`);
    return;
  }
  const names = elementsOf(element)
    .map(({ name }) => `${name} `)
    .join('');
  if (!rule.content.test(names)) faults.push(`<${element.name}> holds: ${names.slice(0, 200)}`);
  const text = element.children.map(textWithin).join('');
  const saysWell = rule.text === null ? /^\s*$/.test(text) : names === '' && rule.text.test(text);
  if (!saysWell) faults.push(`<${element.name}> says “${text}”`);
  faults.push(...attributeFaults(element, rule));
  for (const child of elementsOf(element)) faultsOf(child, faults);
}

/** Elements whose id names another element, and attributes that do. **Source** XML Schema, xs:IDREF. */
const referring = new Set([
  'instrument',
  'part',
  'midi-device',
  'midi-instrument',
  'instrument-change',
  'instrument-link',
]);

/** Ids must be alone in their document, and what is named must be there. **Source** XML Schema, xs:ID and xs:IDREF. */
function idFaults(root: XmlElement): string[] {
  const ids = new Set<string>();
  const named: string[] = [];
  const faults: string[] = [];
  const visit = (element: XmlElement): void => {
    const { id, player } = element.attributes;
    if (player !== undefined) named.push(player);
    if (id !== undefined && referring.has(element.name)) named.push(id);
    else if (id !== undefined) {
      if (ids.has(id)) faults.push(`${id} stands twice`);
      ids.add(id);
    }
    elementsOf(element).forEach(visit);
  };
  visit(root);
  return [...faults, ...named.filter((id) => !ids.has(id)).map((id) => `${id} is named and is nowhere`)];
}

/** What of a MusicXML text breaks the schema; empty for a valid document. */
export function musicXmlFaults(xml: string): readonly string[] {
  const document = parseXml(xml);
  if (!document.ok) return [document.refusal.detail];
  const { root } = document.value;
  if (root.name !== 'score-partwise') return [`the root is <${root.name}>`];
  const faults: string[] = [];
  faultsOf(root, faults);
  return [...faults, ...idFaults(root)];
}
