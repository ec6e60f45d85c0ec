import fc from 'fast-check';

/** A quarter note is counted in so many units. */
export const unitsPerQuarter = 12;
const barUnits = 4 * unitsPerQuarter;
const letters = 'CDEFGAB';
const semitones = [0, 2, 4, 5, 7, 9, 11];

type TieStyle = 'tie' | 'tied' | 'both';

interface WrittenEvent {
  readonly units: number;
  readonly kind: 'note' | 'rest' | 'gap';
  /** Steps above C, each once. */
  readonly steps: readonly number[];
  /** How many of its notes, the first ones, are tied on if a note of the voice follows at once. */
  readonly tied: number;
  readonly style: TieStyle;
}

interface WrittenBar {
  /** What each voice would hold; what is beyond the bar is cut off. The first voice has no gaps and fills the bar. */
  readonly voices: readonly (readonly WrittenEvent[])[];
  /** In which order the voices are written. */
  readonly order: readonly number[];
  /** Divisions of a unit. */
  readonly scale: number;
}

const anyEvent: fc.Arbitrary<WrittenEvent> = fc.record({
  units: fc.constantFrom(1, 3, 4, 6, 8, 12, 18, 24),
  kind: fc.constantFrom('note', 'note', 'note', 'rest', 'gap'),
  steps: fc.uniqueArray(fc.integer({ min: 0, max: 6 }), { minLength: 1, maxLength: 3 }),
  tied: fc.integer({ min: 0, max: 3 }),
  style: fc.constantFrom('tie', 'tied', 'both'),
});

const anyVoice = fc.array(anyEvent, { maxLength: 8 });

const anyBar: fc.Arbitrary<WrittenBar> = fc.record({
  voices: fc.tuple(anyVoice, anyVoice, anyVoice),
  order: fc.shuffledSubarray([0, 1, 2], { minLength: 3, maxLength: 3 }),
  scale: fc.integer({ min: 1, max: 3 }),
});

/** A note that is struck, known before anything is read. **Units** twelfths of a quarter note; MIDI note numbers. */
export interface KnownNote {
  readonly onsetUnits: number;
  readonly units: number;
  readonly midi: number;
}

interface PlacedEvent extends WrittenEvent {
  /** From the start of the bar. */
  readonly atUnits: number;
  /** The steps that an event before it is tied to. */
  readonly held: readonly number[];
}

const filling: WrittenEvent = { units: barUnits, kind: 'rest', steps: [0], tied: 0, style: 'both' };

/** The events of a voice within a bar, one after the other. */
function placed(events: readonly WrittenEvent[], voice: number): PlacedEvent[] {
  const found: PlacedEvent[] = [];
  let atUnits = 0;
  for (const event of voice === 0 ? [...events, filling] : events) {
    const units = Math.min(event.units, barUnits - atUnits);
    const kind = voice === 0 && event.kind === 'gap' ? 'rest' : event.kind;
    if (units > 0) found.push({ ...event, units, kind, atUnits, held: [] });
    atUnits += units;
  }
  return found;
}

/** The voice's bars with ties resolved: a tied step is struck on in what follows at once, and a tie that leads nowhere is none. */
function tiedVoice(bars: readonly WrittenBar[], voice: number): PlacedEvent[][] {
  const all = bars.flatMap(({ voices }, bar) => placed(voices[voice] ?? [], voice).map((event) => ({ bar, event })));
  for (const [index, place] of all.entries()) {
    const { bar, event } = place;
    const last = all[index - 1];
    const endUnits = last === undefined ? -1 : last.bar * barUnits + last.event.atUnits + last.event.units;
    const isNext = endUnits === bar * barUnits + event.atUnits && event.kind === 'note';
    const held = isNext && last?.event.kind === 'note' ? last.event.steps.slice(0, last.event.tied) : [];
    if (last !== undefined) last.event = { ...last.event, tied: held.length };
    place.event = { ...event, held, steps: [...held, ...event.steps.filter((step) => !held.includes(step))] };
  }
  const end = all.at(-1);
  if (end !== undefined) end.event = { ...end.event, tied: 0 };
  return bars.map((_, index) => all.filter(({ bar }) => bar === index).map(({ event }) => event));
}

const octaveOf = (voice: number): number => 5 - voice;

function noteXml(event: PlacedEvent, step: number, index: number, voice: number, scale: number): string {
  const edges = [event.held.includes(step) ? 'stop' : '', index < event.tied ? 'start' : ''].filter(
    (type) => type !== '',
  );
  const ties = event.style === 'tied' ? [] : edges.map((type) => `<tie type="${type}"/>`);
  const drawn = event.style === 'tie' ? [] : edges.map((type) => `<tied type="${type}"/>`);
  const notations = drawn.length === 0 ? '' : `<notations>${drawn.join('')}</notations>`;
  const pitch = `<pitch><step>${letters[step]}</step><octave>${octaveOf(voice)}</octave></pitch>`;
  return `<note>${index > 0 ? '<chord/>' : ''}${pitch}<duration>${event.units * scale}</duration>${ties.join('')}<voice>${voice + 1}</voice>${notations}</note>`;
}

function eventXml(event: PlacedEvent, voice: number, scale: number): string {
  if (event.kind === 'rest')
    return `<note><rest/><duration>${event.units * scale}</duration><voice>${voice + 1}</voice></note>`;
  return event.steps.map((step, index) => noteXml(event, step, index, voice, scale)).join('');
}

function measureXml({ order, scale }: WrittenBar, voices: readonly (readonly PlacedEvent[])[], number: number): string {
  let cursor = 0;
  const move = (to: number): string => {
    const name = to < cursor ? 'backup' : 'forward';
    const by = Math.abs(to - cursor) * scale;
    cursor = to;
    return by === 0 ? '' : `<${name}><duration>${by}</duration></${name}>`;
  };
  const content = order.flatMap((voice) =>
    (voices[voice] ?? []).map((event) => {
      if (event.kind === 'gap') return '';
      const moved = move(event.atUnits);
      cursor += event.units;
      return moved + eventXml(event, voice, scale);
    }),
  );
  const divisions = `<attributes><divisions>${unitsPerQuarter * scale}</divisions></attributes>`;
  return `<measure number="${number}">${divisions}${content.join('')}</measure>`;
}

/** The notes of a voice, each tie chain once. */
function knownNotes(bars: readonly (readonly PlacedEvent[])[], voice: number): KnownNote[] {
  const found: KnownNote[] = [];
  const ringing = new Map<number, { onsetUnits: number; units: number; midi: number }>();
  bars.forEach((events, bar) => {
    for (const event of events.filter(({ kind }) => kind === 'note'))
      for (const step of event.steps) {
        const held = event.held.includes(step) ? ringing.get(step) : undefined;
        const onsetUnits = bar * barUnits + event.atUnits;
        const note = held ?? { onsetUnits, units: 0, midi: 12 * (octaveOf(voice) + 1) + semitones[step]! };
        note.units += event.units;
        ringing.set(step, note);
        if (held === undefined) found.push(note);
      }
  });
  return found;
}

/** A MusicXML document of three voices in four-four, written in any order, some from the middle of a bar on, in divisions that change, with ties of whole chords and parts of them; and what sounds in it. */
export const anyDocument = fc.array(anyBar, { minLength: 1, maxLength: 4 }).map((bars) => {
  const voices = [0, 1, 2].map((voice) => tiedVoice(bars, voice));
  const measures = bars.map((bar, index) =>
    measureXml(
      bar,
      voices.map((events) => events[index] ?? []),
      index + 1,
    ),
  );
  const xml = `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Organ</part-name></score-part></part-list><part id="P1">${measures.join('')}</part></score-partwise>`;
  return { xml, barCount: bars.length, notes: voices.flatMap((events, voice) => knownNotes(events, voice)) };
});
