import type { Piece, PieceBar } from '../form/piece.ts';
import { element, elementWith, type XmlElement } from './xml.ts';

interface PlacedDirection {
  /** Ticks from the bar's start. */
  readonly atTicks: number;
  readonly content: XmlElement;
}

function direction(placement: 'above' | 'below', type: XmlElement, sound: XmlElement | null = null): XmlElement {
  return elementWith('direction', { placement }, element('direction-type', type), element('staff', 1), sound);
}

const wedge = (type: 'crescendo' | 'diminuendo' | 'stop'): XmlElement =>
  direction('below', elementWith('wedge', { type, number: 1 }));

function metronome(quartersPerMinute: number): XmlElement {
  const mark = element('metronome', element('beat-unit', 'quarter'), element('per-minute', quartersPerMinute));
  return direction('above', mark, elementWith('sound', { tempo: quartersPerMinute }));
}

const holds = (bar: PieceBar, ticks: number): boolean =>
  ticks >= bar.onsetTicks && ticks < bar.onsetTicks + bar.lengthTicks;

/** Hairpins end in the bar that holds their last tick, and before the sign that follows them. */
const hairpinEnds = (piece: Piece, bar: PieceBar): PlacedDirection[] =>
  piece.dynamics.flatMap((dynamic) => {
    if (dynamic.kind !== 'hairpin' || !holds(bar, dynamic.endTicks - 1)) return [];
    return [{ atTicks: dynamic.endTicks - bar.onsetTicks, content: wedge('stop') }];
  });

function dynamicSigns(piece: Piece, bar: PieceBar): PlacedDirection[] {
  return piece.dynamics
    .filter((dynamic) => holds(bar, dynamic.onsetTicks))
    .map((dynamic) => {
      const atTicks = dynamic.onsetTicks - bar.onsetTicks;
      if (dynamic.kind === 'level')
        return { atTicks, content: direction('below', element('dynamics', element(dynamic.level))) };
      return { atTicks, content: wedge(dynamic.direction === 'louder' ? 'crescendo' : 'diminuendo') };
    });
}

/** The directions of a bar, each at its place; the sequence leaves the place of writing at the bar's start. */
export function directionElements(piece: Piece, bar: PieceBar): XmlElement[] {
  const placed: PlacedDirection[] = [];
  if (bar.rehearsalMark !== null)
    placed.push({ atTicks: 0, content: direction('above', element('rehearsal', bar.rehearsalMark)) });
  if (bar.quartersPerMinute !== null) placed.push({ atTicks: 0, content: metronome(bar.quartersPerMinute) });
  placed.push(...hairpinEnds(piece, bar), ...dynamicSigns(piece, bar));
  const elements: XmlElement[] = [];
  let atTicks = 0;
  for (const { atTicks: nextTicks, content } of placed.sort((a, b) => a.atTicks - b.atTicks)) {
    if (nextTicks > atTicks) elements.push(element('forward', element('duration', nextTicks - atTicks)));
    elements.push(content);
    atTicks = nextTicks;
  }
  if (atTicks > 0) elements.push(element('backup', element('duration', atTicks)));
  return elements;
}
