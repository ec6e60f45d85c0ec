import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeText } from './decode-text.ts';
import { parseXml } from './parse-xml.ts';
import { serialiseXml } from './serialise-xml.ts';
import { element, textOf, type XmlElement, type XmlNode } from './tree.ts';

function rootOf(xml: string): XmlElement {
  const document = parseXml(xml);
  if (!document.ok) throw new Error(document.refusal.detail);
  return document.value.root;
}

function again(xml: string): string {
  const document = parseXml(xml);
  if (!document.ok) throw new Error(document.refusal.detail);
  return serialiseXml(document.value);
}

describe('serialiseXml after parseXml', () => {
  it.each([
    ['white space, attributes in order and empty elements', '<a b="1" a="2">\n  <c/>\n</a>'],
    ['comments, instructions and CDATA', '<a><!-- one --><?two three?><![CDATA[<four>]]></a>'],
    ['signs that must be escaped', '<a b="&lt;&amp;&quot;&#10;&#9;">&lt;&amp;&gt;</a>'],
    ['letters of all planes', '<a b="ü">𝄞 é 漢</a>'],
    ['names that objects keep for themselves', '<a __proto__="x" constructor="y"/>'],
  ])('keeps %s', (_, body) => {
    const wanted = `<?xml version="1.0" encoding="UTF-8"?>\n${body}\n`;
    expect(again(wanted)).toBe(wanted);
  });

  it('keeps the DOCTYPE and what stands around the root', () => {
    const xml =
      '<?xml version="1.0" encoding="UTF-8"?>\n<!DOCTYPE a PUBLIC "-//x//y" "http://z/[a].dtd">\n<!--before-->\n<a/>\n<!--after-->\n';
    expect(again(xml)).toBe(xml);
  });

  it('gives back any tree', () => {
    const name = fc.constantFrom('a', 'note', 'x-y', 'b1');
    const text = fc.string({
      unit: fc.constantFrom('a', '<', '&', '>', '"', ' ', '\n', ']', 'é', '𝄞'),
      minLength: 1,
      maxLength: 6,
    });
    const { tree } = fc.letrec<{ tree: XmlElement }>((tie) => ({
      tree: fc
        .tuple(
          name,
          fc.dictionary(name, text, { maxKeys: 3, noNullPrototype: true }),
          fc.array(fc.oneof({ maxDepth: 4 }, text, tie('tree')), { maxLength: 4 }),
        )
        .map(([tag, attributes, children]) => element(tag, attributes, joined(children))),
    }));
    fc.assert(
      fc.property(tree, (root) => {
        const read = rootOf(serialiseXml({ doctype: null, before: [], root, after: [] }));
        expect(plain(read)).toEqual(plain(root));
      }),
      { numRuns: 300, seed: 20261125 },
    );
  });
});

/** Texts that stand beside each other are one text. */
function joined(children: readonly XmlNode[]): XmlNode[] {
  const result: XmlNode[] = [];
  for (const child of children) {
    const last = result.at(-1);
    if (typeof child === 'string' && typeof last === 'string') result[result.length - 1] = last + child;
    else result.push(child);
  }
  return result;
}

const plain = ({ name, attributes, children }: XmlElement): unknown => [
  name,
  { ...attributes },
  children.map((child) => (typeof child === 'string' ? child : plain(child as XmlElement))),
];

describe('parseXml', () => {
  it('reads text through CDATA and entities', () => {
    expect(textOf(rootOf('<a> x &amp; <![CDATA[<y>]]>&#233; </a>'))).toBe('x & <y>é');
  });
});

describe('decodeText', () => {
  const utf16 = (text: string, isLittle: boolean, hasMark: boolean): Uint8Array => {
    const units = hasMark ? `\ufeff${text}` : text;
    const bytes = new Uint8Array(units.length * 2);
    const view = new DataView(bytes.buffer);
    for (let index = 0; index < units.length; index += 1) view.setUint16(index * 2, units.charCodeAt(index), isLittle);
    return bytes;
  };

  it.each([
    ['UTF-8', new TextEncoder().encode('<é𝄞/>')],
    ['UTF-8 with a mark', new TextEncoder().encode('\ufeff<é𝄞/>')],
    ['UTF-16, little end first', utf16('<é𝄞/>', true, true)],
    ['UTF-16, big end first', utf16('<é𝄞/>', false, true)],
    ['UTF-16 without a mark', utf16('<é𝄞/>', true, false)],
  ])('reads %s', (_, bytes) => {
    expect(decodeText(bytes)).toEqual({ ok: true, value: '<é𝄞/>' });
  });

  it('reads Latin-1 where the file declares it', () => {
    const bytes = Uint8Array.from('<?xml version="1.0" encoding="ISO-8859-1"?><é/>', (letter) => letter.charCodeAt(0));
    expect(decodeText(bytes)).toMatchObject({ ok: true, value: expect.stringContaining('<é/>') as string });
  });

  it('refuses bytes that are no text', () => {
    expect(decodeText(Uint8Array.of(0x3c, 0xff, 0xff, 0x3e))).toMatchObject({
      ok: false,
      refusal: { code: 'file-unreadable' },
    });
  });
});
