import type { Issue } from '../../basis/issue.ts';
import { fileError } from '../file-issue.ts';
import { limits } from '../limits.ts';
import { textElement } from '../musicxml-writer/text-element.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import type { AbcBar } from './abc-events.ts';
import { AbcLog } from './abc-log.ts';
import { divisionsOf, quartersOfBar } from './abc-lengths.ts';
import { MeasureWriter } from './abc-measures.ts';
import { inPlayOrder } from './abc-play-order.ts';
import { readTune, type AbcScore } from './abc-reader.ts';
import { fullBar } from './abc-time.ts';
import { tunesOf, type AbcTune } from './abc-tunes.ts';

/** How an ABC text is to be read. */
export interface AbcOptions {
  /** Which tune, by the number that its X: says or else by its place in the file; the first where none is named. */
  readonly tune?: number;
}

/** An ABC tune as a MusicXML tree, what was found on the way, and the tunes that the text holds. */
export interface ReadAbc {
  /** A `<score-partwise>`; without parts where an issue of severity `error` says why nothing was read. */
  readonly value: XmlElement;
  readonly issues: readonly Issue[];
  readonly tunes: readonly { readonly number: number; readonly title: string }[];
}

function chosen(tunes: readonly AbcTune[], number: number | undefined): AbcTune | undefined {
  if (number === undefined) return tunes[0];
  return tunes.find((tune) => tune.number === number) ?? tunes[number - 1];
}

/** Whether the first bar of every voice is shorter than its meter. */
function startsWithPickup({ voices }: AbcScore): boolean {
  return voices.every(({ bars: [bar] }) => bar !== undefined && bar.meter.meter !== null && isShort(bar));
}

function isShort(bar: AbcBar): boolean {
  const held = quartersOfBar(bar);
  const full = fullBar(bar.meter);
  return held.numerator > 0 && held.numerator * full.denominator < 4 * full.numerator * held.denominator;
}

function identification(score: AbcScore): XmlElement {
  const about = score.about.map(([letter, text]) => element('miscellaneous-field', { name: `abc-${letter}` }, [text]));
  return element('identification', {}, [
    ...score.composers.map((composer) => element('creator', { type: 'composer' }, [composer])),
    ...(about.length === 0 ? [] : [element('miscellaneous', {}, about)]),
  ]);
}

function partsOf(score: AbcScore, log: AbcLog): XmlElement[] {
  const { divisions, isExact } = divisionsOf(score.voices);
  if (!isExact)
    log.add('value-repaired', 'warning', 'The lengths of the notes have no common grid; they were rounded.', 1, 1);
  const hasPickup = startsWithPickup(score);
  const barCount = Math.max(...score.voices.map(({ bars }) => bars.length));
  const labels = Array.from({ length: barCount }, (_, index) => String(hasPickup ? index : index + 1));
  return score.voices.map((voice, place) => {
    const setting = { divisions, isFirstPart: place === 0, labels, hasPickup, log };
    const writer = new MeasureWriter(voice, score.unendedSlurs.get(voice) ?? new Set(), setting);
    if (voice.bars.length < barCount)
      log.add(
        'voice-gap',
        'warning',
        `Voice “${voice.id}” has ${voice.bars.length} of ${barCount} bars; it rests in the others.`,
        1,
        1,
      );
    const measures = labels.map((_, index) => {
      const bar = voice.bars[index];
      const other = score.voices.find(({ bars }) => bars.length > index)?.bars[index];
      return bar === undefined && other !== undefined
        ? writer.restMeasure(index, quartersOfBar(other))
        : bar === undefined
          ? element('measure', { number: '' })
          : writer.measure(bar, index);
    });
    return element('part', { id: `P${place + 1}` }, measures);
  });
}

function treeOf(score: AbcScore, log: AbcLog): XmlElement {
  const [title = '', ...subtitles] = score.titles;
  const entries = score.voices.map(({ name, id }, place) => {
    const shown = name === '' ? (score.voices.length === 1 ? 'Tune' : `Voice ${id}`) : name;
    return element('score-part', { id: `P${place + 1}` }, [textElement('part-name', shown)]);
  });
  const credits = subtitles.map((text) =>
    element('credit', {}, [textElement('credit-type', 'subtitle'), textElement('credit-words', text)]),
  );
  const parts = partsOf(score, log);
  return element('score-partwise', { version: '4.0' }, [
    ...(title === '' ? [] : [textElement('movement-title', title)]),
    identification(score),
    ...credits,
    element('part-list', {}, entries),
    ...parts,
  ]);
}

const unread = (issue: Issue, tunes: ReadAbc['tunes'] = []): ReadAbc => ({
  value: element('score-partwise', { version: '4.0' }),
  issues: [issue],
  tunes,
});

function sizeError({ voices }: AbcScore): Issue | null {
  const bars = voices.reduce((sum, voice) => sum + voice.bars.length, 0);
  const events = voices.reduce(
    (sum, voice) => sum + voice.bars.reduce((inner, bar) => inner + bar.layers.flat().length, 0),
    0,
  );
  if (events > limits.notes) return fileError('too-many-notes', `The tune has more than ${limits.notes} notes.`);
  return bars > limits.bars ? fileError('file-too-large', `The tune has more than ${limits.bars} bars.`) : null;
}

/**
 * A tune of an ABC text as a MusicXML tree: a part for each voice. What is not understood is told with line and column, and the
 * rest is read. **Errors** as issues of severity `error`: `file-too-large`, `file-unsupported` where no tune is found, `no-music`,
 * `too-many-notes`. **Source** ABC 2.1 (abcnotation.com), from memory.
 */
export function abcToMusicXml(text: string, options: AbcOptions = {}): ReadAbc {
  if (text.length > limits.packedBytes)
    return unread(fileError('file-too-large', `The text is longer than ${limits.packedBytes} letters.`));
  const found = tunesOf(text);
  const tunes = found.map(({ number, title }) => ({ number, title }));
  const tune = chosen(found, options.tune);
  if (found.length === 0) return unread(fileError('file-unsupported', 'The text is no ABC: it has neither X: nor K:.'));
  if (tune === undefined) return unread(fileError('no-music', `The text has no tune ${options.tune ?? ''}.`), tunes);
  const log = new AbcLog();
  const score = inPlayOrder(readTune(tune, log), log);
  if (score.voices.length === 0) return unread(fileError('no-music', 'The tune holds no bars.'), tunes);
  const error = sizeError(score);
  if (error !== null) return unread(error, tunes);
  const value = treeOf(score, log);
  return { value, issues: log.issues(), tunes };
}
