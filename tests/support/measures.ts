/** What stands in a document of measures beside their content. */
export interface MeasuresOptions {
  readonly name?: string;
  /** Elements of the first `<attributes>` after divisions, of which a quarter note has 24. */
  readonly attributes?: string;
}

const plainAttributes =
  '<key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><clef><sign>G</sign><line>2</line></clef>';

/** A document of one part: the content of its measures, as XML. */
export function measuresXml(bars: readonly string[], options: MeasuresOptions = {}): string {
  const first = `<attributes><divisions>24</divisions>${options.attributes ?? plainAttributes}</attributes>`;
  const measures = bars.map(
    (bar, index) => `<measure number="${index + 1}">${index === 0 ? first : ''}${bar}</measure>`,
  );
  return `<?xml version="1.0"?><score-partwise version="4.0"><part-list><score-part id="P1"><part-name>${options.name ?? 'Flute'}</part-name></score-part></part-list><part id="P1">${measures.join('')}</part></score-partwise>`;
}
