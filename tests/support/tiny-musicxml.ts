/** What a tiny document says beside its notes. */
export interface TinyOptions {
  readonly name?: string;
  /** Elements of the first `<attributes>` after divisions; common time in C under a treble clef where nothing is said. */
  readonly attributes?: string;
}

const quartersOf: Readonly<Record<string, number>> = { w: 4, h: 2, q: 1, e: 0.5, s: 0.25 };
const divisions = 24;

function pitchXml(text: string): string {
  const match = /^([A-G])(#|b)?(-?\d)$/.exec(text);
  if (match === null) throw new Error(`no pitch: ${text}`);
  const alter = match[2] === undefined ? '' : `<alter>${match[2] === '#' ? 1 : -1}</alter>`;
  return `<pitch><step>${match[1]}</step>${alter}<octave>${match[3]}</octave></pitch>`;
}

function soundXml(text: string): string {
  if (text === 'r') return '<rest/>';
  return text.startsWith('x') ? '<unpitched/>' : pitchXml(text);
}

interface Token {
  readonly sounds: readonly string[];
  readonly length: string;
  readonly dots: number;
  readonly rest: string;
}

function tokenOf(text: string): Token {
  const match = /^([^:]+):([whqes])(\.*)(.*)$/.exec(text);
  if (match === null) throw new Error(`no note: ${text}`);
  return { sounds: match[1]!.split('+'), length: match[2]!, dots: match[3]!.length, rest: match[4]! };
}

/** String and fret: `@5/3`. */
const technicalXml = (text: string): string => {
  const match = /@(\d+)\/(\d+)/.exec(text);
  return match === null ? '' : `<technical><string>${match[1]}</string><fret>${match[2]}</fret></technical>`;
};

function noteXml({ sounds, length, dots, rest }: Token, voice: number, staff: number): string {
  const duration = (quartersOf[length] ?? 0) * (2 - 0.5 ** dots) * divisions;
  const isGrace = rest.includes('g');
  const ties = `${rest.includes('>') ? '<tie type="stop"/>' : ''}${rest.includes('<') ? '<tie type="start"/>' : ''}`;
  const head = rest.includes('*') ? '<notehead>x</notehead>' : '';
  const technical = technicalXml(rest);
  const notations = technical === '' ? '' : `<notations>${technical}</notations>`;
  return sounds
    .map(
      (sound, index) =>
        `<note>${isGrace ? '<grace/>' : ''}${rest.includes('c') ? '<cue/>' : ''}${index > 0 ? '<chord/>' : ''}${soundXml(sound)}` +
        `${isGrace ? '' : `<duration>${duration}</duration>`}${ties}<voice>${voice}</voice>${head}<staff>${staff}</staff>${notations}</note>`,
    )
    .join('');
}

/** A bar's voices, `;` between them: notes are `C4:q`, chords `C4+E4:h.`, rests `r:w`; then `<` tie on, `>` tied from before, `g` grace, `c` cue, `*` x head, `@5/3` string and fret, `2` after `v` or `s`… `v2s2 ` before a voice sets voice and staff. What begins with `<` and holds no colon is XML as it stands. */
function tinyMeasure(text: string, number: number, attributes = ''): string {
  const voices = text.split(';').map((voice) => voice.trim());
  let length = 0;
  const body = voices.map((voice, index) => {
    const setting = /^v(\d+)s(\d+)\s+/.exec(voice);
    const notes = voice
      .slice(setting?.[0].length ?? 0)
      .split(/\s+/)
      .filter((token) => token !== '');
    const back = index > 0 ? `<backup><duration>${length}</duration></backup>` : '';
    length = 0;
    const written = notes.map((token) => {
      if (token.startsWith('<')) return token;
      const parsed = tokenOf(token);
      if (!parsed.rest.includes('g')) length += (quartersOf[parsed.length] ?? 0) * (2 - 0.5 ** parsed.dots) * divisions;
      return noteXml(parsed, Number(setting?.[1] ?? index + 1), Number(setting?.[2] ?? 1));
    });
    return back + written.join('');
  });
  return `<measure number="${number}">${attributes}${body.join('')}</measure>`;
}

const plainAttributes =
  '<key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><clef><sign>G</sign><line>2</line></clef>';

/** A part of a tiny document; bars between `|`. */
function tinyPart(id: string, music: string, { attributes = plainAttributes }: TinyOptions = {}): string {
  const first = `<attributes><divisions>${divisions}</divisions>${attributes}</attributes>`;
  const bars = music.split('|').map((bar, index) => tinyMeasure(bar, index + 1, index === 0 ? first : ''));
  return `<part id="${id}">${bars.join('')}</part>`;
}

/** A part of a tiny document: its music and what else it says. */
export type TinyPart = readonly [string, TinyOptions?];

/** A whole tiny document of one or more parts, each with its music and options. */
export function tinyScore(...parts: readonly TinyPart[]): string {
  const list = parts.map(
    ([, options], index) =>
      `<score-part id="P${index + 1}"><part-name>${options?.name ?? 'Music'}</part-name></score-part>`,
  );
  const bodies = parts.map(([music, options], index) => tinyPart(`P${index + 1}`, music, options));
  return `<?xml version="1.0"?><score-partwise version="4.0"><part-list>${list.join('')}</part-list>${bodies.join('')}</score-partwise>`;
}
