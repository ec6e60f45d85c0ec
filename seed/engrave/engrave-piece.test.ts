import { parse, validate } from 'musicxml-io';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { demoPieces } from '../demo-pieces.ts';

interface Node {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Node[];
  text: string;
}

function treeOf(xml: string): Node {
  const top: Node = { name: '', attributes: {}, children: [], text: '' };
  const open = [top];
  const parser = new SaxesParser();
  parser.on('opentag', ({ name, attributes }) => {
    const node: Node = { name, attributes: attributes, children: [], text: '' };
    open.at(-1)!.children.push(node);
    open.push(node);
  });
  parser.on('text', (text) => (open.at(-1)!.text += text));
  parser.on('closetag', () => open.pop());
  parser.write(xml).close();
  return top.children[0]!;
}

const all = (node: Node, name: string): Node[] =>
  node.children.flatMap((child) => [...(child.name === name ? [child] : []), ...all(child, name)]);
const child = (node: Node, name: string): Node | undefined =>
  node.children.find((candidate) => candidate.name === name);

// The order of children in MusicXML 4.0 (musicxml.xsd), from memory; only elements that this project writes are listed.
const orders: Readonly<Record<string, readonly string[]>> = {
  'score-partwise': ['work', 'identification', 'part-list', 'part'],
  'score-part': ['part-name', 'score-instrument', 'midi-instrument'],
  attributes: ['divisions', 'key', 'time', 'staves', 'clef', 'staff-details', 'transpose'],
  'staff-details': ['staff-lines', 'staff-tuning', 'capo'],
  'staff-tuning': ['tuning-step', 'tuning-alter', 'tuning-octave'],
  clef: ['sign', 'line', 'clef-octave-change'],
  direction: ['direction-type', 'offset', 'voice', 'staff', 'sound'],
  barline: ['bar-style', 'ending', 'repeat'],
  note: [
    'chord',
    'pitch',
    'unpitched',
    'rest',
    'duration',
    'tie',
    'voice',
    'type',
    'dot',
    'accidental',
    'time-modification',
    'stem',
    'notehead',
    'staff',
    'beam',
    'notations',
  ],
  pitch: ['step', 'alter', 'octave'],
};

describe.each(demoPieces().map((demo) => [demo.title, demo] as const))('%s as MusicXML', (_title, demo) => {
  const score = treeOf(demo.musicXml);
  const measures = all(score, 'measure');

  it('keeps the order of elements', () => {
    for (const [name, order] of Object.entries(orders))
      for (const node of [score, ...all(score, name)].filter((candidate) => candidate.name === name)) {
        const places = node.children.map((each) => order.indexOf(each.name));
        expect(places).not.toContain(-1);
        expect(places).toEqual([...places].sort((a, b) => a - b));
      }
  });

  it('is valid to a second reader (musicxml-io, npm)', () => {
    expect(validate(parse(demo.musicXml)).errors).toEqual([]);
  });

  it('lets every voice end where its bar ends', () => {
    for (const [index, measure] of measures.entries()) {
      let atTicks = 0;
      const reached: number[] = [];
      for (const node of measure.children) {
        const ticks = Number(child(node, 'duration')?.text ?? 0);
        if (node.name === 'backup') reached.push(atTicks);
        if (node.name === 'backup') atTicks -= ticks;
        else if (child(node, 'chord') === undefined) atTicks += ticks;
        expect(atTicks).toBeGreaterThanOrEqual(0);
      }
      const { lengthTicks } = demo.piece.bars[index]!;
      expect(atTicks).toBe(lengthTicks);
      expect(Math.max(...reached)).toBe(lengthTicks);
    }
  });

  it('gives string and fret in both staves, and as many heads in tablature as plucks', () => {
    const heads = all(score, 'note').filter((note) => child(note, 'rest') === undefined);
    expect(heads.every((head) => all(head, 'string').length === 1 && all(head, 'fret').length === 1)).toBe(true);
    const struck = (staff: string): number =>
      heads.filter(
        (head) =>
          child(head, 'staff')?.text === staff && !all(head, 'tie').some((tie) => tie.attributes['type'] === 'stop'),
      ).length;
    expect(struck('1')).toBe(demo.piece.notes.length);
    expect(struck('2')).toBe(new Set(demo.piece.notes.map((note) => `${note.onsetTicks} ${note.string}`)).size);
  });

  it('ties on exactly what it tied to', () => {
    for (const staff of ['1', '2']) {
      const ties = all(score, 'note')
        .filter((note) => child(note, 'staff')?.text === staff)
        .flatMap((note) => all(note, 'tie'));
      const count = (type: string): number => ties.filter((tie) => tie.attributes['type'] === type).length;
      expect(count('start')).toBe(count('stop'));
    }
  });

  it('begins and ends every beam', () => {
    const beams = all(score, 'beam').map((beam) => beam.text);
    expect(beams.filter((word) => word === 'begin').length).toBe(beams.filter((word) => word === 'end').length);
    expect(beams.length).toBeGreaterThan(10);
  });
});

describe('The Weir at Low Water shows what a real transcription has', () => {
  const score = treeOf(demoPieces()[0]!.musicXml);
  const texts = (name: string): string[] => all(score, name).map((node) => node.text);

  it('a pickup, repeats with endings, rehearsal marks, tempo, dynamics, a triplet, let-ring ties and x heads', () => {
    expect(all(score, 'measure')[0]!.attributes).toEqual({ number: '0', implicit: 'yes' });
    expect(all(score, 'repeat').map((repeat) => repeat.attributes['direction'])).toEqual([
      'forward',
      'backward',
      'forward',
      'backward',
    ]);
    expect(all(score, 'ending').map(({ attributes }) => `${attributes['number']} ${attributes['type']}`)).toEqual([
      '1 start',
      '1 stop',
      '2 start',
      '2 discontinue',
      '1 start',
      '1 stop',
      '2 start',
      '2 discontinue',
    ]);
    expect(texts('rehearsal')).toEqual(['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H']);
    expect(texts('per-minute')).toEqual(['88', '72', '60']);
    expect(all(score, 'wedge').length).toBeGreaterThan(10);
    expect(all(score, 'tuplet').length).toBe(8);
    expect(all(score, 'tied').filter((tied) => tied.attributes['type'] === 'let-ring').length).toBeGreaterThan(10);
    expect(texts('notehead').every((head) => head === 'x')).toBe(true);
    expect(texts('fifths')).toEqual(['2', '1', '2']);
  });

  it('names its dropped sixth string on the lowest line', () => {
    const tuning = all(score, 'staff-tuning').map(
      (node) => `${node.attributes['line']} ${node.children.map((each) => each.text).join('')}`,
    );
    expect(tuning).toEqual(['1 D2', '2 A2', '3 D3', '4 G3', '5 B3', '6 E4']);
  });
});
