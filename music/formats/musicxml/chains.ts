import { midiOf } from '../../basis/pitch.ts';
import type { Bar, SourceVoice } from '../../score/score.ts';
import type { IssueLog } from './issue-log.ts';
import { staffKindOf, type RawHead, type RawPart, type StaffKind } from './raw-part.ts';

/** One pluck as one staff writes it: a head and the heads tied to it, or both heads of a double-stemmed unison. */
export interface Chain {
  readonly part: RawPart;
  readonly kind: StaffKind;
  readonly staff: number;
  readonly barIndex: number;
  readonly onsetTicks: number;
  readonly endTicks: number;
  /** In order of time. */
  readonly heads: readonly RawHead[];
  readonly voices: readonly SourceVoice[];
  /** How long each voice of a double-stemmed unison writes it; absent for one voice. */
  readonly voiceLengthTicks?: readonly number[];
  readonly held: readonly HeldHeads[];
}

/** Heads that continue a chain on another pass: in a later ending, or after a jump to the coda. */
interface HeldHeads {
  readonly barIndex: number;
  readonly onsetTicks: number;
  readonly lengthTicks: number;
}

type GrowingChain = Chain & { endTicks: number; readonly heads: RawHead[]; held: readonly HeldHeads[] };

const noneHeld: readonly HeldHeads[] = [];

/** A chain that is tied on, and which of its held heads the tie goes on from, if not from the chain itself. */
interface Waiting {
  readonly chain: GrowingChain;
  readonly held: { lengthTicks: number } | null;
}

/** The first head of a chain: it says what sounds. */
export function firstHead(chain: Pick<Chain, 'heads'>): RawHead {
  const head = chain.heads[0];
  if (head === undefined) throw new Error('Heddle bug: a chain without heads');
  return head;
}

/** Whether a head stands for a hit rather than for a pitch. */
export const isHit = (head: RawHead): boolean =>
  head.pitch === null || head.isRhythmSlash || (head.hasCrossHead && !head.hasLyric);

/** The MIDI note number as written, or null for a hit. */
export const writtenMidi = (head: RawHead): number | null =>
  head.pitch === null || isHit(head) ? null : midiOf(head.pitch);

function heightOf(head: RawHead, isTablature: boolean): string {
  const drawn = head.pitch ?? head.display;
  return `${isTablature ? 't' : 'n'}${drawn === null ? 'x' : midiOf(drawn)}${isHit(head) ? 'x' : ''}`;
}

/** The moments from which another pass leads to the start of a bar: where the endings before it began, or where the way to the coda leaves. */
function earlierWaysTo(bars: readonly Bar[], barIndex: number): number[] {
  const bar = bars[barIndex];
  const ways: number[] = [];
  if (bar === undefined) return ways;
  if (bar.endings.length > 0) {
    let first = barIndex;
    while ((bars[first - 1]?.endings.length ?? 0) > 0) first -= 1;
    const start = bars[first];
    if (first < barIndex && start !== undefined) ways.push(start.onsetTicks);
  }
  if (bar.jumps.includes('coda')) {
    const leaving = bars.slice(0, barIndex).filter(({ jumps }) => jumps.includes('toCoda') || jumps.includes('coda'));
    ways.push(...leaving.map(({ onsetTicks, lengthTicks }) => onsetTicks + lengthTicks));
  }
  return ways;
}

/** Finds which heads continue which; keeps the chains that wait for a head to continue them. */
class ChainBuilder {
  readonly chains: GrowingChain[] = [];
  /** By height and the moment at which they end: that of the head that continues them. */
  private readonly open = new Map<string, Waiting[]>();
  /** The chains that were tied over a barline, by height and moment. */
  private readonly crossing = new Map<string, GrowingChain>();
  /** What chains say of their voice, once for all that say the same. */
  private readonly voices = new Map<string, (readonly [SourceVoice])[]>();
  private readonly part: RawPart;
  private readonly bars: readonly Bar[];
  private readonly log: IssueLog;
  /** Ties from grace notes to their main notes, by height and moment: they strike nothing anew and hold nothing on. */
  private readonly begunByGraces: ReadonlySet<string>;

  constructor(part: RawPart, bars: readonly Bar[], log: IssueLog) {
    this.part = part;
    this.bars = bars;
    this.log = log;
    const tied = part.heads.filter(({ isGrace, startsTie }) => isGrace && startsTie);
    this.begunByGraces = new Set(
      tied.map((head) => `${this.heightOf(head)} ${(bars[head.barIndex]?.onsetTicks ?? 0) + head.offsetTicks}`),
    );
  }

  private heightOf(head: RawHead): string {
    return heightOf(head, staffKindOf(this.part, head.staff) === 'tablature');
  }

  add(head: RawHead): void {
    const kind = staffKindOf(this.part, head.staff);
    const onsetTicks = (this.bars[head.barIndex]?.onsetTicks ?? 0) + head.offsetTicks;
    if (head.startsTie || head.stopsTie) this.addTied(head, kind, onsetTicks);
    else this.begin(head, kind, onsetTicks);
  }

  private addTied(head: RawHead, kind: StaffKind, onsetTicks: number): void {
    const height = this.heightOf(head);
    const continued = head.stopsTie ? this.continuedBy(head, height, onsetTicks) : undefined;
    if (head.stopsTie && continued === undefined && !this.begunByGraces.has(`${height} ${onsetTicks}`))
      this.report(head, 'A tie ends here that begins nowhere; the note was kept as a note of its own.');
    const { chain, held } = continued ?? { chain: this.begin(head, kind, onsetTicks), held: null };
    const endTicks = onsetTicks + head.lengthTicks;
    if (continued !== undefined) chain.heads.push(head);
    if (held === null) chain.endTicks = endTicks;
    else held.lengthTicks += head.lengthTicks;
    if (head.startsTie) this.leaveOpen(`${height} ${endTicks}`, { chain, held });
  }

  /** What a head goes on from: the chain that ends where it begins, else one that another pass leads here from. */
  private continuedBy(head: RawHead, height: string, onsetTicks: number): Waiting | undefined {
    const waiting = this.takeOpen(`${height} ${onsetTicks}`, head);
    if (head.offsetTicks > 0) return waiting;
    if (waiting !== undefined) {
      this.crossing.set(`${height} ${onsetTicks}`, waiting.chain);
      return waiting;
    }
    for (const ticks of earlierWaysTo(this.bars, head.barIndex)) {
      const key = `${height} ${ticks}`;
      const chain = this.crossing.get(key) ?? this.takeOpen(key, head)?.chain;
      if (chain === undefined) continue;
      this.crossing.set(key, chain);
      const held = { barIndex: head.barIndex, onsetTicks, lengthTicks: 0 };
      chain.held = [...chain.held, held];
      return { chain, held };
    }
    return undefined;
  }

  reportUnended(): void {
    for (const { chain } of [...this.open.values()].flat()) {
      const last = chain.heads.at(-1);
      if (last !== undefined)
        this.report(last, 'A tie begins here that never ends; the note was kept with its own length.');
    }
  }

  private report(head: RawHead, detail: string): void {
    this.log.add('tie-unresolved', 'warning', detail, {
      partName: this.part.name,
      barIndex: head.barIndex,
      offsetTicks: head.offsetTicks,
    });
  }

  private begin(head: RawHead, kind: StaffKind, onsetTicks: number): GrowingChain {
    const chain: GrowingChain = {
      part: this.part,
      kind,
      staff: head.staff,
      barIndex: head.barIndex,
      onsetTicks,
      endTicks: onsetTicks + head.lengthTicks,
      heads: [head],
      voices: this.voicesOf(head),
      held: noneHeld,
    };
    this.chains.push(chain);
    return chain;
  }

  private voicesOf({ staff, voice, stem }: RawHead): readonly [SourceVoice] {
    let ofName = this.voices.get(voice);
    if (ofName === undefined) this.voices.set(voice, (ofName = []));
    for (const known of ofName) if (known[0].staff === staff && known[0].stem === stem) return known;
    const fresh = [{ part: this.part.id, staff, voice, stem }] as const;
    ofName.push(fresh);
    return fresh;
  }

  private leaveOpen(key: string, left: Waiting): void {
    const waiting = this.open.get(key);
    if (waiting === undefined) this.open.set(key, [left]);
    else waiting.push(left);
  }

  private takeOpen(key: string, head: RawHead): Waiting | undefined {
    const waiting = this.open.get(key) ?? [];
    const sameVoice = waiting.findIndex(
      ({ chain }) => chain.heads.at(-1)?.voice === head.voice && chain.heads.at(-1)?.staff === head.staff,
    );
    const sameStaff = waiting.findIndex(({ chain }) => chain.heads.at(-1)?.staff === head.staff);
    return waiting.splice(sameVoice >= 0 ? sameVoice : Math.max(0, sameStaff), 1)[0];
  }
}

const byTime = (a: RawHead, b: RawHead): number => a.barIndex - b.barIndex || a.offsetTicks - b.offsetTicks;

/** The chains of a part in order of time, graces and cue notes left out. Ties that lead nowhere are reported and kept. */
export function chainsOf(part: RawPart, bars: readonly Bar[], log: IssueLog): Chain[] {
  const builder = new ChainBuilder(part, bars, log);
  for (const head of part.heads.filter(({ isGrace, isCue }) => !isGrace && !isCue).sort(byTime)) builder.add(head);
  builder.reportUnended();
  return builder.chains;
}

const unisonKey = (chain: Chain): string => {
  const head = firstHead(chain);
  return `${chain.onsetTicks} ${chain.staff} ${writtenMidi(head) ?? ''}`;
};

const differInVoice = (a: Chain, b: Chain): boolean =>
  a.voices.every((voice) => b.voices.every((other) => other.voice !== voice.voice));

const voiceLengthsOf = ({ voiceLengthTicks, onsetTicks, endTicks }: Chain): readonly number[] =>
  voiceLengthTicks ?? [endTicks - onsetTicks];

function merged(first: Chain, second: Chain): Chain {
  const inTime = [...first.heads, ...second.heads].sort(byTime);
  return {
    ...first,
    heads: inTime,
    voices: [...first.voices, ...second.voices],
    voiceLengthTicks: [...voiceLengthsOf(first), ...voiceLengthsOf(second)],
    held: [...first.held, ...second.held],
    endTicks: Math.max(first.endTicks, second.endTicks),
  };
}

const stringOf = (chain: Chain): number | null => firstHead(chain).fingerboard?.string ?? null;

const areOnTwoStrings = (a: Chain, b: Chain): boolean =>
  stringOf(a) !== null && stringOf(b) !== null && stringOf(a) !== stringOf(b);

/** The moments and pitch classes that tablature strikes on two strings at once: notation in octaves of its own has the same. */
export function twiceStruck(tablature: readonly Chain[]): ReadonlySet<string> {
  const first = new Map<string, Chain>();
  const twice = new Set<string>();
  for (const chain of tablature) {
    const earlier = first.get(unisonKey(chain));
    if (earlier === undefined) first.set(unisonKey(chain), chain);
    else if (areOnTwoStrings(earlier, chain)) twice.add(momentKey(chain));
  }
  return twice;
}

const momentKey = (chain: Chain): string => `${chain.onsetTicks} ${(writtenMidi(firstHead(chain)) ?? 0) % 12}`;

/** The chains with double-stemmed unisons joined: same staff, same onset, same pitch, different voices, but for those on two strings. For plucked strings only: one string is plucked once. */
export function joinUnisons(chains: readonly Chain[], twice: ReadonlySet<string> = new Set()): readonly Chain[] {
  const [first] = chains;
  const voice = first?.voices[0]?.voice;
  if (chains.every(({ voices }) => voices[0]?.voice === voice)) return chains;
  const joined: Chain[] = [];
  const placeOf = new Map<string, number>();
  for (const chain of chains) {
    const key = unisonKey(chain);
    const place = placeOf.get(key);
    const earlier = place === undefined ? undefined : joined[place];
    const isUnison =
      writtenMidi(firstHead(chain)) !== null &&
      earlier !== undefined &&
      differInVoice(earlier, chain) &&
      !areOnTwoStrings(earlier, chain) &&
      !twice.has(momentKey(chain));
    if (isUnison && place !== undefined) joined[place] = merged(earlier, chain);
    else {
      placeOf.set(key, joined.length);
      joined.push(chain);
    }
  }
  return joined;
}
