/** A document with two guitars: the first under a clef that says an octave lower, the second under one that says nothing, with a capo at fret 2. A bar of one whole note E5 each. */
export function twoGuitars(): string {
  const part = (id: string, clef: string, before: string): string =>
    `<part id="${id}"><measure number="1"><attributes><divisions>1</divisions><key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><clef><sign>G</sign><line>2</line>${clef}</clef></attributes>${before}<note><pitch><step>E</step><octave>5</octave></pitch><duration>4</duration><voice>1</voice><type>whole</type></note></measure></part>`;
  const named = (id: string, name: string): string =>
    `<score-part id="${id}"><part-name>${name}</part-name></score-part>`;
  const capo = '<direction><direction-type><words>Capo 2</words></direction-type></direction>';
  return `<?xml version="1.0"?><score-partwise version="4.0"><part-list>${named('P1', 'High guitar')}${named('P2', 'Low guitar')}</part-list>${part('P1', '<clef-octave-change>-1</clef-octave-change>', '')}${part('P2', '', capo)}</score-partwise>`;
}
