import { parse } from 'musicxml-io';
import { readScoreFile } from '../../dist/music/index.js';
import { mediansInTurn, row, shown } from './measure.js';
import { wanderingVoices } from './pieces.js';

const letters = ['C', 'C', 'D', 'D', 'E', 'F', 'F', 'G', 'G', 'A', 'A', 'B'];
const altered = [0, 1, 0, 1, 0, 0, 1, 0, 1, 0, 1, 0];

/** One voice of plain MusicXML with `count` notes, sixteen to a bar. */
export function plainMusicXml(count) {
  const notes = wanderingVoices(count).map(({ midi }) => {
    const step = letters[midi % 12];
    const alter = altered[midi % 12] ? '<alter>1</alter>' : '';
    return `<note><pitch><step>${step}</step>${alter}<octave>${Math.floor(midi / 12) - 1}</octave></pitch><duration>1</duration><voice>1</voice><type>16th</type></note>`;
  });
  const measures = [];
  for (let at = 0; at < notes.length; at += 16) {
    const attributes =
      at === 0
        ? '<attributes><divisions>4</divisions><key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><clef><sign>G</sign><line>2</line></clef></attributes>'
        : '';
    measures.push(`<measure number="${at / 16 + 1}">${attributes}${notes.slice(at, at + 16).join('')}</measure>`);
  }
  return `<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Guitar</part-name></score-part></part-list><part id="P1">${measures.join('')}</part></score-partwise>`;
}

const source = { fileName: 'bench.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };

/** Reading so many notes beside a reader that builds no score of ours; it is given the text, we are given the bytes and give each note its id in the document too. */
function rowFor({ count, turns }) {
  const text = plainMusicXml(count);
  const bytes = new TextEncoder().encode(text);
  const [ours, peer] = mediansInTurn([() => readScoreFile(bytes, source), () => parse(text)], turns);
  const how = `median of ${turns} turns after ${turns} to warm up; the first took ${shown(ours.first)} and ${shown(peer.first)} ms`;
  return row(
    `MusicXML of ${count.toLocaleString('en')} notes to Score`,
    '≤ 2× musicxml-io',
    `${shown(ours.median)} ms`,
    ours.median <= 2 * peer.median,
    `${shown(peer.median)} ms, ${shown(ours.median / peer.median)}×; ${how}`,
  );
}

const measured = [
  { count: 2000, turns: 101 },
  { count: 20_000, turns: 21 },
];

/** Reading MusicXML beside another reader. */
export const bench = () => measured.map(rowFor);
