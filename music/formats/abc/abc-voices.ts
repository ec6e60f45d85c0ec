import type { Fraction } from '../../basis/fraction.ts';
import type { AccidentalReach } from './abc-accidentals.ts';
import { octavesOfMiddle, staffingOf, type AbcStaffing } from './abc-clefs.ts';
import type { AbcVoice } from './abc-events.ts';
import type { AbcKey } from './abc-key.ts';
import type { AbcLog } from './abc-log.ts';
import { plainText } from './abc-text.ts';
import { impliedLength, tempoOf, type AbcMeter } from './abc-time.ts';
import { VoiceBuilder, type VoiceSetting } from './abc-voice.ts';

/** What a tune's header has said so far, for voices that are not there yet. */
export interface TuneState {
  key: AbcKey;
  meter: AbcMeter;
  /** Null where L: is not given and the meter implies it. */
  unitLength: Fraction | null;
  reach: AccidentalReach;
  tempoText: string | null;
  isBody: boolean;
}

/** A tune of which nothing is said yet. **Source** ABC 2.1, M: field: free time where it is left out, from memory. */
export const openingState = (): TuneState => ({
  key: { fifths: 0, mode: null, alters: {}, isExplicit: false },
  meter: { meter: null, symbol: null },
  unitLength: null,
  reach: 'pitch',
  tempoText: null,
  isBody: false,
});

/** Where something was written. */
export interface TextPlace {
  readonly lineNumber: number;
  readonly column: number;
}

const named = /\b(?:name|nm)=(?:"([^"]*)"|(\S+))/;

/** The voices of a tune by their names, and which of them is being written. */
export class TuneVoices {
  private readonly builders = new Map<string, VoiceBuilder>();
  private current: VoiceBuilder | null = null;
  /** What K: says about the staves. */
  private staffing: AbcStaffing = staffingOf('');
  private readonly state: TuneState;
  private readonly log: AbcLog;

  constructor(state: TuneState, log: AbcLog) {
    this.state = state;
    this.log = log;
  }

  get all(): readonly VoiceBuilder[] {
    return [...this.builders.values()];
  }

  private unitLength(): Fraction {
    return this.state.unitLength ?? impliedLength(this.state.meter.meter);
  }

  private builderOf(id: string): VoiceBuilder {
    const known = this.builders.get(id);
    if (known !== undefined) return known;
    const { key, meter, reach, isBody } = this.state;
    const setting: VoiceSetting = { key, meter, unitLength: this.unitLength(), octaves: 0, reach };
    const voice: AbcVoice = { id, name: '', clef: null, transpose: 0, bars: [] };
    const builder = new VoiceBuilder(voice, setting, this.log);
    if (isBody) {
      builder.change({ key, meter });
      builder.restaff(this.staffing);
    }
    this.builders.set(id, builder);
    return builder;
  }

  /** The voice that is being written: the first where none was chosen. */
  voice(): VoiceBuilder {
    this.current ??= this.all[0] ?? this.builderOf('1');
    return this.current;
  }

  /** How far accidentals reach, for all voices from here on. */
  setReach(reach: AccidentalReach): void {
    this.state.reach = reach;
    for (const { setting } of this.all) setting.reach = reach;
  }

  /** Whom a field speaks to: all voices in the header, one in the body. */
  targets(): readonly VoiceBuilder[] {
    return this.state.isBody ? [this.voice()] : this.all;
  }

  private tellUnread({ unread }: AbcStaffing, { lineNumber, column }: TextPlace): void {
    for (const word of unread)
      this.log.add('element-left-out', 'warning', `“${word}” is not read; it was left out.`, lineNumber, column);
  }

  /** Takes in what is said of the staff beside a key: in the header for all voices, in the body for the one that is written. */
  restaff(text: string, place: TextPlace): void {
    const staffing = staffingOf(text);
    this.tellUnread(staffing, place);
    if (this.state.isBody) this.told(this.voice(), staffing, place);
    else this.staffing = staffing;
  }

  private told(builder: VoiceBuilder, staffing: AbcStaffing, { lineNumber, column }: TextPlace): void {
    builder.restaff(staffing);
    const { middleSteps, transpose } = staffing;
    if (middleSteps === null) return;
    const octaves = octavesOfMiddle(middleSteps, builder.clef);
    if (octaves === null)
      this.log.add(
        'element-left-out',
        'note',
        'A “middle=” that is no octave of the clef’s own was left out.',
        lineNumber,
        column,
      );
    else if (octaves !== 0 && transpose === null)
      this.log.add(
        'octave-assumed',
        'note',
        `With “middle=” the letters stand ${Math.abs(octaves)} octave${Math.abs(octaves) === 1 ? '' : 's'} ${octaves < 0 ? 'lower' : 'higher'} on the staff; they were read as they are printed.`,
        lineNumber,
        column,
      );
  }

  /** The header ends with the key: voices that were named before it get what it says. */
  beginBody(): void {
    const { key, meter, reach, tempoText } = this.state;
    for (const builder of this.all) {
      Object.assign(builder.setting, { key, meter, reach, unitLength: this.unitLength() });
      builder.change({ key, meter });
      builder.restaff(this.staffing, true);
    }
    this.state.isBody = true;
    if (tempoText === null) return;
    const tempo = tempoOf(tempoText, this.unitLength());
    const isTold = tempo.quartersPerMinute !== null || tempo.words !== '';
    if (isTold) (this.all[0] ?? this.builderOf('1')).change({ tempo });
  }

  /** Takes in a V: field; in the body the voice is written from there on. */
  choose(text: string, isInline: boolean, place: TextPlace): void {
    const [, id = '1', rest = ''] = /^(\S+)\s*(.*)$/s.exec(text) ?? [];
    const isFallback = this.builders.size === 1 && this.current === null && this.state.isBody && !this.builders.has(id);
    const builder = isFallback ? this.renamed(id) : this.builderOf(id);
    const [, quoted, plain] = named.exec(rest) ?? [];
    builder.voice.name = plainText(quoted ?? plain ?? builder.voice.name);
    const staffing = staffingOf(rest);
    this.tellUnread(staffing, place);
    this.told(builder, staffing, place);
    if (!this.state.isBody) return;
    if (!isInline) builder.lineNotes = [];
    this.current = builder;
  }

  /** A voice that was made for the tempo of the header before any voice was named takes the first name that comes. */
  private renamed(id: string): VoiceBuilder {
    const [only] = this.all;
    const isFresh = only !== undefined && only.voice.bars.length === 0 && only.voice.id === '1';
    if (!isFresh) return this.builderOf(id);
    this.builders.clear();
    this.builders.set(id, only);
    only.voice.id = id;
    return only;
  }
}
