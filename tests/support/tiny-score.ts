/** The MusicXML of a small score in 4/4: each bar is a line of quarter notes such as `E2 G3 B3 E4`; `-` is a rest. */
export function tinyScore(bars: readonly string[], title = 'Tiny'): Uint8Array {
  const measures = bars.map(
    (bar, index) => `<measure number="${index + 1}">${index === 0 ? attributes : ''}${notesOf(bar)}</measure>`,
  );
  return new TextEncoder().encode(
    `<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><work><work-title>${title}</work-title></work>` +
      `<part-list><score-part id="P1"><part-name>Guitar</part-name></score-part></part-list>` +
      `<part id="P1">${measures.join('')}</part></score-partwise>`,
  );
}

const attributes =
  '<attributes><divisions>1</divisions><key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time>' +
  '<clef><sign>G</sign><line>2</line><clef-octave-change>-1</clef-octave-change></clef></attributes>';

const notesOf = (bar: string): string => bar.split(' ').map(noteOf).join('');

function noteOf(name: string): string {
  const [, step, octave] = /^([A-G])(\d)$/.exec(name) ?? [];
  const sound = step === undefined ? '<rest/>' : `<pitch><step>${step}</step><octave>${octave ?? ''}</octave></pitch>`;
  return `<note>${sound}<duration>1</duration><voice>1</voice><type>quarter</type></note>`;
}
