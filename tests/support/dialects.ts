import type { XmlElement } from '../../music/formats/xml/tree.ts';
import { rootOf } from './dialects/edit-tree.ts';
import { inOneVoice } from './dialects/one-voice.ts';
import { asPacked, asText, asTimewise, asUtf16 } from './dialects/packing.ts';
import {
  capoAsSounding,
  capoByElement,
  capoByWords,
  hitsUnpitched,
  octaveByTransposition,
  octaveUnsaid,
} from './dialects/pitches.ts';
import { notationAlone, tablatureAlone, tablatureAsPart } from './dialects/staves.ts';

/** One way in which programs write the same guitar music. */
export interface Dialect {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Whether lengths of notes survive in it. */
  readonly keepsLengths: boolean;
  /** How much higher it sounds than the original: where a capo was put on. */
  readonly raisedSemitones: number;
}

type Write = (root: XmlElement) => XmlElement;

const layouts: readonly (readonly [string, Write, boolean])[] = [
  ['tablature as second staff', (root) => root, true],
  ['tablature as a part of its own', tablatureAsPart, true],
  ['tablature alone', tablatureAlone, false],
  ['notation alone', notationAlone, true],
  ['all in one voice', inOneVoice, false],
  ['all in one voice, tablature as a part of its own', (root) => tablatureAsPart(inOneVoice(root)), false],
];

const octaves: readonly (readonly [string, Write])[] = [
  ['octave by clef', (root) => root],
  ['octave by transposition', octaveByTransposition],
  ['octave unsaid', octaveUnsaid],
];

const hits: readonly (readonly [string, Write])[] = [
  ['hits as x heads', (root) => root],
  ['hits unpitched', hitsUnpitched],
];

/** The music of a two-staff guitar document (notation under a treble clef with an 8 below, and tablature) in every dialect. */
export function dialectsOf(xml: string): readonly Dialect[] {
  const root = rootOf(xml);
  const plain = layouts.flatMap(([layout, lay, keepsLengths]) =>
    octaves.flatMap(([octave, move]) =>
      hits.map(([hit, strike]): Dialect => ({
        name: `${layout}, ${octave}, ${hit}`,
        bytes: asText(lay(move(strike(root)))),
        keepsLengths,
        raisedSemitones: 0,
      })),
    ),
  );
  const dialect = (name: string, bytes: Uint8Array, raisedSemitones = 0): Dialect => ({
    name,
    bytes,
    keepsLengths: true,
    raisedSemitones,
  });
  return [
    ...plain,
    dialect('packed', asPacked(root)),
    dialect('timewise', asText(asTimewise(root))),
    dialect('timewise, tablature as a part of its own', asText(asTimewise(tablatureAsPart(root)))),
    dialect('UTF-16, little end first', asUtf16(root, true)),
    dialect('UTF-16, big end first', asUtf16(root, false)),
    dialect('capo 3 by element', asText(capoByElement(root, 3)), 3),
    dialect('capo 3 by element, octave unsaid', asText(capoByElement(octaveUnsaid(root), 3)), 3),
    dialect('capo 3 by element, tablature as a part of its own', asText(tablatureAsPart(capoByElement(root, 3))), 3),
    dialect('capo 3 by element, written as it sounds', asText(capoAsSounding(root, 3)), 3),
    dialect('capo 3 by words', asText(capoByWords(root, 'Capo 3')), 3),
    dialect('capo 3 by Roman words, notation alone', asText(notationAlone(capoByWords(root, 'Capo III'))), 3),
  ];
}
