import { readNormalised, type Line, type Mark, type NoteId } from '../../music/index.ts';
import {
  printedFile,
  stillOf,
  svgOfStill,
  type EngravedMusic,
  type EngravedWish,
} from '../../web/engraving/print/engraved-files.ts';
import '../../web/ui/fonts.css';
import '../../web/ui/tokens.css';

/** Music as it can be handed to a page. */
export interface SentMusic {
  readonly normalisedXml: string;
  readonly lines: readonly Line[];
  readonly marks: readonly (readonly [NoteId, Mark])[];
}

/** A PDF's bytes as base64, and the sentences about what it does not say. */
export interface PrintedInPage {
  readonly base64: string;
  readonly losses: readonly string[];
}

/** What this module puts on the page for tests to call. */
export interface WithPrint {
  printInPage: (sent: SentMusic, wish: EngravedWish, paper: 'a4' | 'letter') => Promise<PrintedInPage>;
  drawInPage: (sent: SentMusic, wish: EngravedWish) => Promise<string>;
}

const musicOf = ({ normalisedXml, lines, marks }: SentMusic): EngravedMusic => ({
  musicXml: normalisedXml,
  score: readNormalised(normalisedXml).value,
  split: { revision: 1, lines, marks: new Map(marks) },
});

const page = globalThis as unknown as WithPrint;

page.printInPage = async (sent, wish, paper) => {
  const words = { title: 'Printed', subtitle: 'for a test', composer: 'Nobody' };
  const { bytes, losses } = await printedFile(musicOf(sent), wish, paper, words, () => undefined);
  return { base64: btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join('')), losses };
};

page.drawInPage = async (sent, wish) =>
  new TextDecoder().decode(svgOfStill(await stillOf(musicOf(sent), wish, 'light', () => undefined), 'Drawn'));
