/** One bar with its signs: `|:A`, `B:|`, `B:|3` (three times in all), `C[1]`, `D[1,2]`, `E{segno}`. */
export interface SignedBar {
  readonly name: string;
  readonly startsRepeat: boolean;
  readonly repeatTimes: number;
  readonly endings: readonly number[];
  readonly jumps: readonly string[];
}

/** Reads bars that are written as text, with a space between them. */
export function signedBars(text: string): readonly SignedBar[] {
  return text.split(' ').map((barText) => {
    const match = /^(\|:)?(\w+)(?:\[([\d,]+)\])?(?:\{([\w,]+)\})?(:\|(\d+)?)?$/.exec(barText);
    if (match === null) throw new Error(`not a bar: ${barText}`);
    const [, start, name, endings, jumps, end, times] = match;
    return {
      name: name!,
      startsRepeat: start !== undefined,
      repeatTimes: end === undefined ? 0 : Number(times ?? 2),
      endings: endings?.split(',').map(Number) ?? [],
      jumps: jumps?.split(',') ?? [],
    };
  });
}

const ending = ({ endings }: SignedBar, type: 'start' | 'stop'): string =>
  endings.length === 0 ? '' : `<ending number="${endings.join(', ')}" type="${type}"/>`;

/** The order of elements is that of MusicXML 4.0, barline: bar-style, ending, repeat. */
function barlines(
  bar: SignedBar,
  before: SignedBar | undefined,
  after: SignedBar | undefined,
): readonly [string, string] {
  const beginsEnding = bar.endings.join() !== before?.endings.join();
  const endsEnding = bar.endings.join() !== after?.endings.join() || bar.repeatTimes > 0;
  const left = `${beginsEnding ? ending(bar, 'start') : ''}${bar.startsRepeat ? '<repeat direction="forward"/>' : ''}`;
  const times = bar.repeatTimes > 2 ? ` times="${bar.repeatTimes}"` : '';
  const right = `${endsEnding ? ending(bar, 'stop') : ''}${bar.repeatTimes > 0 ? `<repeat direction="backward"${times}/>` : ''}`;
  return [
    left === '' ? '' : `<barline location="left">${left}</barline>`,
    right === '' ? '' : `<barline location="right">${right}</barline>`,
  ];
}

const attributes =
  '<attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time><clef><sign>G</sign><line>2</line></clef></attributes>';

/** A MusicXML document with one whole note in each bar; the note of the nth bar has the id `bar-n`. */
export function barsAsMusicXml(bars: readonly SignedBar[]): string {
  const measures = bars.map((bar, index) => {
    const [left, right] = barlines(bar, bars[index - 1], bars[index + 1]);
    const note = `<note id="bar-${index + 1}"><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration><type>whole</type></note>`;
    return `<measure number="${index + 1}">${index === 0 ? attributes : ''}${left}${note}${right}</measure>`;
  });
  return `<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Bars</part-name></score-part></part-list><part id="P1">${measures.join('')}</part></score-partwise>`;
}
