import { parse } from 'musicxml-io';
import { readScoreFile } from '../../dist/music/index.js';
import { medianMs, row, shown } from './measure.js';
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

/** Reading so many notes beside a reader that builds no score of ours. */
function rowFor(count) {
  const text = plainMusicXml(count);
  const bytes = new TextEncoder().encode(text);
  const peer = medianMs(() => parse(text));
  const ours = medianMs(() =>
    readScoreFile(bytes, { fileName: 'bench.musicxml', firstNoteNumber: 1, firstBarNumber: 1 }),
  );
  return row(
    `MusicXML of ${count.toLocaleString('en')} notes to Score`,
    '≤ 2× musicxml-io',
    `${shown(ours)} ms`,
    ours <= 2 * peer,
    `${shown(peer)} ms, ${shown(ours / peer)}×`,
  );
}

/** Reading MusicXML beside another reader. */
export const bench = () => [2000, 20_000].map(rowFor);
