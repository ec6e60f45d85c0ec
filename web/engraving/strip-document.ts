import type { Bar } from '../../music/index.ts';

/** How the bars of a strip follow on what stands before them. */
export interface StripContext {
  readonly bars: readonly Bar[];
  /** The bar before the first one on the page, or null at its start. */
  readonly before: Bar | null;
}

/**
 * Makes the XML of a strip ready for the engraver: page and system breaks of the file gone, a meter that has not
 * changed not printed again, rests of third and later voices hidden.
 */
export function readyForEngraver(document: Document, context: StripContext): void {
  for (const element of document.querySelectorAll('print, part-name-display, credit, defaults')) element.remove();
  if (context.before !== null && sameMeter(context.before, context.bars[0])) hideFirstMeter(document);
  for (const part of document.querySelectorAll('part')) hideThirdVoiceRests(part);
}

const sameMeter = (before: Bar, bar: Bar | undefined): boolean =>
  bar !== undefined &&
  bar.meter.beatUnit === before.meter.beatUnit &&
  bar.meter.beats.join('+') === before.meter.beats.join('+');

function hideFirstMeter(document: Document): void {
  for (const time of document.querySelectorAll('measure:first-of-type > attributes > time')) {
    time.setAttribute('print-object', 'no');
  }
}

function hideThirdVoiceRests(part: Element): void {
  const voicesOfStaff = new Map<string, Set<string>>();
  for (const note of part.querySelectorAll('note')) {
    const staff = note.querySelector(':scope > staff')?.textContent ?? '1';
    const voice = note.querySelector(':scope > voice')?.textContent ?? '1';
    const voices = voicesOfStaff.get(staff) ?? new Set<string>();
    voicesOfStaff.set(staff, voices.add(voice));
    const isExtra = [...voices].indexOf(voice) > 1;
    if (isExtra && note.querySelector(':scope > rest') !== null) note.setAttribute('print-object', 'no');
  }
}
