/** Where an element stands in a text: its start tag from `start`, its content, its end at `end`. */
export interface ElementSpan {
  readonly name: string;
  readonly start: number;
  readonly contentStart: number;
  readonly contentEnd: number;
  readonly end: number;
  readonly holdsElements: boolean;
}

interface OpenElement {
  readonly name: string;
  readonly start: number;
  readonly contentStart: number;
  holdsElements: boolean;
}

/** The elements of a well-formed text, without a parser of ours in between. */
export function elementSpans(xml: string): readonly ElementSpan[] {
  const spans: ElementSpan[] = [];
  const open: OpenElement[] = [];
  for (const match of xml.matchAll(/<!--[\s\S]*?-->|<(\/?)([A-Za-z][\w.:-]*)([^<>]*?)(\/?)>/g)) {
    const name = match[2];
    if (name === undefined) continue;
    const [start, after] = [match.index, match.index + match[0].length];
    const parent = open.at(-1);
    if (match[1] === '/') {
      const opened = open.pop();
      if (opened !== undefined) spans.push({ ...opened, contentEnd: start, end: after });
      continue;
    }
    if (parent !== undefined) parent.holdsElements = true;
    if (match[4] === '/')
      spans.push({ name, start, contentStart: after, contentEnd: after, end: after, holdsElements: false });
    else open.push({ name, start, contentStart: after, holdsElements: false });
  }
  return spans;
}

/** A MusicXML text with the first bars of each part only. */
export function firstBars(xml: string, count: number): string {
  return xml.replace(/(<part\s[^>]*>)([\s\S]*?)(<\/part>)/g, (_, open: string, body: string, close: string) => {
    const bars = body.match(/<measure\b[\s\S]*?<\/measure>/g) ?? [];
    return `${open}${bars.slice(0, count).join('\n')}${close}`;
  });
}
