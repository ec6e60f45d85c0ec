import type { Draw } from './draw.ts';
import { bytesOf, nastyNumbers, textMutation, type Mutation } from './mutation.ts';
import { elementSpans, type ElementSpan } from './xml-elements.ts';

const cutOut = (xml: string, from: number, to: number, put = ''): string => xml.slice(0, from) + put + xml.slice(to);

function oneOf(xml: string, draw: Draw, isWanted: (span: ElementSpan) => boolean): ElementSpan | null {
  const wanted = elementSpans(xml).filter(isWanted);
  return wanted.length === 0 ? null : draw.pick(wanted);
}

/** Puts another content into one element of the wanted kind; where there is none, the text stays. */
const refilled =
  (isWanted: (span: ElementSpan) => boolean, contentOf: (draw: Draw) => string) =>
  (xml: string, draw: Draw): string => {
    const span = oneOf(xml, draw, isWanted);
    return span === null ? xml : cutOut(xml, span.contentStart, span.contentEnd, contentOf(draw));
  };

const named =
  (...names: readonly string[]) =>
  ({ name, contentEnd, contentStart }: ElementSpan): boolean =>
    contentEnd > contentStart && names.includes(name);

const isLeaf = ({ holdsElements, contentStart, contentEnd }: ElementSpan): boolean =>
  !holdsElements && contentEnd > contentStart;

const nasty = (draw: Draw): string => draw.pick(nastyNumbers);

const everywhere = (xml: string, pattern: RegExp, put: (found: string) => string): string => xml.replace(pattern, put);

/** Puts markup into one bar, or into several. */
function intoBars(xml: string, draw: Draw, count: number, markup: (draw: Draw) => string): string {
  let changed = xml;
  for (let left = count; left > 0; left -= 1) {
    const bars = [...changed.matchAll(/<measure\b[^>]*>/g)];
    if (bars.length === 0) return changed;
    const bar = draw.pick(bars);
    const at = bar.index + bar[0].length;
    changed = cutOut(changed, at, at, markup(draw));
  }
  return changed;
}

const jumps = [
  '<direction><sound dacapo="yes"/></direction>',
  '<direction><sound dalsegno="s"/></direction>',
  '<direction><sound segno="s"/></direction>',
  '<direction><sound tocoda="c"/></direction>',
  '<direction><sound coda="c"/></direction>',
  '<direction><sound fine="yes"/></direction>',
  '<barline location="left"><repeat direction="forward"/></barline>',
  '<barline location="right"><repeat direction="backward" times="1000000"/></barline>',
  '<barline location="right"><repeat direction="backward"/></barline>',
  '<barline location="left"><ending number="1-1000000" type="start"/></barline>',
  '<barline location="left"><ending number="1,2,3,3,2,1" type="start"/></barline>',
  '<barline location="right"><ending number="2" type="stop"/></barline>',
];

const entityBomb = (root: string): string => {
  const levels = Array.from({ length: 12 }, (_, level) => `<!ENTITY e${level + 1} "${`&e${level};`.repeat(10)}">`).join(
    '',
  );
  return `<!DOCTYPE ${root} [<!ENTITY e0 "ha">${levels}]>`;
};

function withDoctype(xml: string, doctype: string, entity: string): string {
  const plain = xml.replace(/<!DOCTYPE[^>]*>/, '');
  const at = plain.indexOf('<score-');
  return at < 0
    ? doctype + plain
    : cutOut(plain, at, at, doctype).replace(/<step>[A-G]<\/step>/, `<step>${entity}</step>`);
}

const labels = [
  'ISO-8859-1',
  'UTF-16',
  'EBCDIC-CP-US',
  'Shift_JIS',
  'utf-7',
  'KOI8-R',
  'windows-1252',
  '',
  'x'.repeat(5000),
];

const labelled = (xml: string, label: string): string =>
  `<?xml version="1.0" encoding="${label}"?>${xml.replace(/^\s*<\?xml[^>]*\?>/, '')}`;

function asUtf16(text: string, isBigEndian: boolean, hasMark: boolean): Uint8Array {
  const marked = hasMark ? `\uFEFF${text}` : text;
  const view = new DataView(new ArrayBuffer(marked.length * 2));
  for (let at = 0; at < marked.length; at += 1) view.setUint16(at * 2, marked.charCodeAt(at), !isBigEndian);
  return new Uint8Array(view.buffer);
}

const decoder = new TextDecoder();

const charsetMutations: readonly Mutation[] = [
  textMutation('another charset named', (xml, draw) => labelled(xml, draw.pick(labels))),
  {
    name: 'UTF-16 under any label',
    apply: (bytes, draw) =>
      asUtf16(
        labelled(decoder.decode(bytes), draw.pick(['UTF-8', ...labels])),
        draw.below(2) === 0,
        draw.below(2) === 0,
      ),
  },
  {
    name: 'Latin-1 that says UTF-8',
    apply: (bytes) => {
      const text = labelled(decoder.decode(bytes), 'UTF-8').replace(
        '<part-list>',
        '<credit><credit-words>Café</credit-words></credit><part-list>',
      );
      return Uint8Array.from(text, (sign) => sign.charCodeAt(0) & 0xff);
    },
  },
];

const claimMutations: readonly Mutation[] = [
  textMutation('durations that cannot be', refilled(named('duration'), nasty)),
  textMutation('every duration huge', (xml) => everywhere(xml, /<duration>\d+/g, () => '<duration>2000000000')),
  textMutation('every duration negative', (xml) => everywhere(xml, /<duration>/g, () => '<duration>-')),
  textMutation('divisions lost', (xml) => everywhere(xml, /<divisions>[^<]*<\/divisions>/g, () => '')),
  textMutation('divisions that cannot be', refilled(named('divisions'), nasty)),
  textMutation('divisions without common measure', (xml, draw) =>
    intoBars(
      xml,
      draw,
      6,
      () => `<attributes><divisions>${draw.pick([7919, 104_729, 65_537, 99_991, 999_983])}</divisions></attributes>`,
    ),
  ),
  textMutation('meters that cannot be', refilled(named('beats', 'beat-type'), nasty)),
  textMutation('a million bars claimed', (xml, draw) =>
    intoBars(
      xml,
      draw,
      2,
      () => '<attributes><measure-style><multiple-rest>1000000</multiple-rest></measure-style></attributes>',
    ).replace(/<measure number="[^"]*"/, '<measure number="1000000"'),
  ),
  textMutation(
    'numbers that cannot be',
    refilled((span) => isLeaf(span) && span.contentEnd - span.contentStart < 8, nasty),
  ),
  textMutation('jumps in circles', (xml, draw) => intoBars(xml, draw, 2 + draw.below(8), () => draw.pick(jumps))),
  textMutation('moves through time', (xml, draw) =>
    intoBars(xml, draw, 3, () => {
      const move = draw.pick(['backup', 'forward']);
      return `<${move}><duration>${nasty(draw)}</duration></${move}>`;
    }),
  ),
];

const treeMutations: readonly Mutation[] = [
  textMutation('element lost', (xml, draw) => {
    const span = oneOf(xml, draw, () => true);
    return span === null ? xml : cutOut(xml, span.start, span.end);
  }),
  textMutation('element twice', (xml, draw) => {
    const span = oneOf(xml, draw, ({ name }) => !name.startsWith('score-'));
    return span === null
      ? xml
      : cutOut(xml, span.end, span.end, xml.slice(span.start, span.end).repeat(1 + draw.below(6)));
  }),
  textMutation('elements swapped', (xml, draw) => {
    const spans = elementSpans(xml);
    const [one, other] = [draw.pick(spans), draw.pick(spans)].sort((a, b) => a.start - b.start);
    if (one === undefined || other === undefined || one.end > other.start) return xml;
    const between = xml.slice(one.end, other.start);
    return cutOut(
      xml,
      one.start,
      other.end,
      xml.slice(other.start, other.end) + between + xml.slice(one.start, one.end),
    );
  }),
  textMutation('element moved elsewhere', (xml, draw) => {
    const [span, place] = [
      oneOf(xml, draw, ({ name }) => name !== 'part'),
      oneOf(xml, draw, ({ holdsElements }) => holdsElements),
    ];
    if (span === null || place === null) return xml;
    return cutOut(xml, place.contentStart, place.contentStart, xml.slice(span.start, span.end));
  }),
  textMutation('unknown elements', (xml, draw) =>
    intoBars(xml, draw, 3, () => `<quux depth="${nasty(draw)}"><note><deep/></note></quux>`),
  ),
  textMutation('element renamed', (xml, draw) => {
    const span = oneOf(xml, draw, isLeaf);
    return span === null
      ? xml
      : cutOut(xml, span.start, span.end, `<other>${xml.slice(span.contentStart, span.contentEnd)}</other>`);
  }),
  textMutation('nested too deep', (xml, draw) => {
    const depth = draw.pick([10, 60, 64, 100, 5000]);
    return intoBars(xml, draw, 1, () => '<a>'.repeat(depth) + '</a>'.repeat(depth));
  }),
  textMutation('attributes that cannot be', (xml, draw) => {
    const found = [...xml.matchAll(/="([^"<]*)"/g)];
    if (found.length === 0) return xml;
    const { index, 0: whole } = draw.pick(found);
    return cutOut(
      xml,
      index,
      index + whole.length,
      `="${draw.pick([...nastyNumbers, 'x'.repeat(20_000), '&#10;', '"'])}"`,
    );
  }),
  textMutation(
    'text that cannot be',
    refilled(isLeaf, (draw) =>
      draw.pick(['💥', 'x'.repeat(20_000), '&#0;', '&#x1F;', '&nbsp;', ']]>', '<![CDATA[<note>]]>', '\u202Eabc']),
    ),
  ),
  textMutation('all ids alike', (xml) => everywhere(xml, /<note\b/g, () => '<note id="n1"')),
];

const bombMutations: readonly Mutation[] = [
  textMutation('entities that grow', (xml) => withDoctype(xml, entityBomb('score-partwise'), '&e12;')),
  textMutation('an entity from outside', (xml) =>
    withDoctype(xml, '<!DOCTYPE score-partwise [<!ENTITY e SYSTEM "file:///etc/passwd">]>', '&e;'),
  ),
  {
    name: 'more bars than are read',
    isHeavy: true,
    apply: () =>
      bytesOf(`<score-partwise><part-list/><part id="P1">${'<measure/>'.repeat(21_000)}</part></score-partwise>`),
  },
];

/** Damage to MusicXML that knows what it breaks. */
export const xmlMutations: readonly Mutation[] = [
  ...charsetMutations,
  ...claimMutations,
  ...treeMutations,
  ...bombMutations,
];
