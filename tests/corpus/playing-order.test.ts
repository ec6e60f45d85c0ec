import { describe, expect, it } from 'vitest';
import { VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';
import { playingOrder } from '../../music/form/playing-order.ts';
import { readMusicXml } from '../../music/formats/musicxml/read-score.ts';
import { barsAsMusicXml, signedBars } from '../support/bars-as-musicxml.ts';

const openToolkit = async (): Promise<VerovioToolkit> => {
  const toolkit = new VerovioToolkit(await createVerovioModule());
  toolkit.setOptions({ inputFrom: 'musicxml', expandAlways: true });
  return toolkit;
};
let opened: Promise<VerovioToolkit> | null = null;

/** The order in which verovio 6.3.0 (https://www.verovio.org), an independent reader, plays the bars of a document. */
async function secondOrder(xml: string): Promise<readonly number[]> {
  opened ??= openToolkit();
  const toolkit = await opened;
  if (!toolkit.loadData(xml)) throw new Error('verovio cannot read the document');
  const times = toolkit.renderToTimemap({}) as readonly { readonly on?: readonly string[] }[];
  return times.flatMap(({ on }) => on ?? []).map((id) => Number(/^bar-(\d+)/.exec(id)?.[1]));
}

function ownOrder(xml: string): readonly number[] {
  const read = readMusicXml(new TextEncoder().encode(xml), {
    fileName: 'bars.musicxml',
    firstNoteNumber: 1,
    firstBarNumber: 1,
  });
  if (!read.ok) throw new Error(JSON.stringify(read.refusal));
  const { score } = read.value;
  const ordinals = new Map(score.bars.map(({ id, ordinal }) => [id, ordinal]));
  return playingOrder(score).map(({ bar }) => ordinals.get(bar)!);
}

// Where a repeat has no beginning and follows another, readers differ; those cases are left to the unit test.
describe('[R29] the order of playing is that of verovio', () => {
  it.each([
    'A B C',
    'A B:| C',
    'A |:B C:| D',
    '|:A B:| |:C D:|',
    '|:A:|3 B',
    '|:A B[1]:| C[2] D',
    '|:A B[1] C[1]:| D[2] E[2] F',
    '|:A B[1,2]:| C[3] D',
    '|:A B[1]:| C[2]:| D[3] E',
    '|:A B[1]:| C[2] |:D E[1]:| F[2]',
    'A B |:C D[1]:| E[2] F |:G H:| I',
  ])('%s', async (bars) => {
    const xml = barsAsMusicXml(signedBars(bars));
    expect(ownOrder(xml)).toEqual(await secondOrder(xml));
  });
});
