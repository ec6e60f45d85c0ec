import { describe, expect, it } from 'vitest';
import { identifiedText, type NewId } from './identified-text.ts';
import { parseXml } from './parse-xml.ts';
import { elementsOf, withChildren, type XmlDocument, type XmlElement } from './tree.ts';

function documentOf(xml: string): XmlDocument {
  const document = parseXml(xml);
  if (!document.ok) throw new Error(document.refusal.detail);
  return document.value;
}

const all = (root: XmlElement): XmlElement[] => [root, ...elementsOf(root).flatMap(all)];

/** Every element of a name gets an id: `i1`, `i2` … */
const idsFor = (root: XmlElement, name: string): NewId[] =>
  all(root)
    .filter((element) => element.name === name)
    .map((element, index) => ({ element, id: `i${index + 1}` }));

const declaration = '<?xml version="1.0" encoding="UTF-8"?>\n';

describe('a document with new ids', () => {
  it.each([
    ['<a><note/><note /></a>', '<a><note id="i1"/><note  id="i2"/></a>'],
    ['<note>x</note>', '<note id="i1">x</note>'],
    ['<a><note>x</note><note>x</note></a>', '<a><note id="i1">x</note><note id="i2">x</note></a>'],
    ['<a><note n="1"><b/></note></a>', '<a><note n="1" id="i1"><b/></note></a>'],
    ['<a><note id="n7" n="1"/></a>', '<a><note id="i1" n="1"/></a>'],
    ['<a><note\n id = \'n7\' n=">"/></a>', '<a><note id="i1" n=">"/></a>'],
    [
      '<a><note n=" id=\'x\'" xml:id="y" id="n7">t</note></a>',
      '<a><note n=" id=\'x\'" xml:id="y" id="i1">t</note></a>',
    ],
    [
      "<a  b='1'>\n  <note/> &amp; <!-- <note/> -->\n</a>",
      '<a  b=\'1\'>\n  <note id="i1"/> &amp; <!-- <note/> -->\n</a>',
    ],
  ])('keeps its own words: %j', (xml, expected) => {
    const document = documentOf(xml);
    const text = identifiedText(document, idsFor(document.root, 'note'));
    expect(text).toBe(`${declaration}${expected}\n`);
    expect(all(documentOf(text).root).flatMap(({ attributes }) => attributes['id'] ?? [])).toEqual(
      idsFor(document.root, 'note').map(({ id }) => id),
    );
  });

  it('is read in one go where many blanks follow an id', () => {
    const blanks = ' '.repeat(300_000);
    const document = documentOf(`<a><note id="n"${blanks}/></a>`);
    expect(identifiedText(document, idsFor(document.root, 'note'))).toBe(
      `${declaration}<a><note id="i1"${blanks}/></a>\n`,
    );
  });

  it('keeps what stands around its root', () => {
    const document = documentOf(
      '<?xml version=\'1.0\' encoding=\'ISO-8859-1\'?><!-- <a> --><!DOCTYPE a PUBLIC "x" "y">\n<a><note/></a>\n<!-- end -->\n\n',
    );
    expect(identifiedText(document, idsFor(document.root, 'note'))).toBe(
      `${declaration}<!DOCTYPE a PUBLIC "x" "y">\n<!-- <a> -->\n<a><note id="i1"/></a>\n<!-- end -->\n`,
    );
  });

  const same = (document: XmlDocument): XmlDocument => document;
  const withText = (document: XmlDocument): XmlDocument => ({
    ...document,
    root: withChildren(document.root, [...document.root.children, 'x']),
  });

  it.each([
    ['that was changed', "<a><note n='1'></note></a>", withText, '<a><note n="1" id="i1"/>x</a>'],
    ['that is no plain text', "<a><?t b?><note n='1'></note></a>", same, '<a><?t b?><note n="1" id="i1"/></a>'],
  ])('is written anew where it is one %s', (_, xml, changed, expected) => {
    const document = changed(documentOf(xml));
    expect(identifiedText(document, idsFor(document.root, 'note'))).toBe(`${declaration}${expected}\n`);
  });
});
