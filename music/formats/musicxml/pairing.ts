import { writtenMidi, firstHead, type Chain } from './chains.ts';
import type { IssueLog } from './issue-log.ts';
import type { Tuning } from '../../score/score.ts';

/** How a tablature's chains fit a notation's: the constant distance between them and who is whose copy. */
export interface Pairing {
  /** Semitones from the notation as written to the tablature's strings and frets without capo. */
  readonly distance: number;
  readonly copyOf: ReadonlyMap<Chain, Chain>;
  /** Tablature chains that nothing in the notation stands for. */
  readonly unpaired: readonly Chain[];
  /** Pairs whose pitches differ, the notation's pitch being kept. */
  readonly disagreeing: readonly Chain[];
  /** Of all tablature chains, the share that found an equal. **Units** 0 to 1. */
  readonly agreement: number;
}

/** The open string's pitch plus the fret, without capo; the written pitch where string or fret is missing; null for a hit. */
export function fingerboardMidi(chain: Chain, tuning: Tuning): number | null {
  const head = firstHead(chain);
  const written = writtenMidi(head);
  if (written === null) return null;
  const open = head.fingerboard === null ? undefined : (head.strings?.tuning ?? tuning)[head.fingerboard.string - 1];
  return open === undefined || head.fingerboard === null ? written : open + head.fingerboard.fret;
}

/** Chains by their onset. */
export function byOnset(chains: readonly Chain[]): Map<number, Chain[]> {
  const groups = new Map<number, Chain[]>();
  for (const chain of chains) {
    const group = groups.get(chain.onsetTicks);
    if (group === undefined) groups.set(chain.onsetTicks, [chain]);
    else group.push(chain);
  }
  return groups;
}

/** The most frequent value; of equals the one nearest to 0, then the lower. */
export function mostFrequent(values: Iterable<number>): { readonly value: number; readonly count: number } | null {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  let best: { value: number; count: number } | null = null;
  for (const [value, count] of counts) {
    const isBetter =
      best === null ||
      count > best.count ||
      (count === best.count &&
        (Math.abs(value) < Math.abs(best.value) || (Math.abs(value) === Math.abs(best.value) && value < best.value)));
    if (isBetter) best = { value, count };
  }
  return best;
}

function distanceBetween(notation: ReadonlyMap<number, Chain[]>, tablature: readonly Chain[], tuning: Tuning): number {
  const distances: number[] = [];
  for (const chain of tablature) {
    const fretted = fingerboardMidi(chain, tuning);
    if (fretted === null) continue;
    for (const candidate of notation.get(chain.onsetTicks) ?? []) {
      const written = writtenMidi(firstHead(candidate));
      if (written !== null) distances.push(fretted - written);
    }
  }
  return mostFrequent(distances)?.value ?? 0;
}

class Matcher {
  readonly copyOf = new Map<Chain, Chain>();
  readonly unpaired: Chain[] = [];
  readonly disagreeing: Chain[] = [];
  equals = 0;
  private readonly distance: number;
  private readonly tuning: Tuning;

  constructor(distance: number, tuning: Tuning) {
    this.distance = distance;
    this.tuning = tuning;
  }

  /** Pairs what is struck at one onset: equals first, then what is left over in order of pitch. */
  match(struck: readonly Chain[], copies: readonly Chain[], ringing: (midi: number) => Chain | undefined): void {
    const free = [...struck];
    const rest = copies.filter((copy) => {
      const at = free.findIndex((chain) => this.isEqual(writtenMidi(firstHead(chain)), copy));
      if (at < 0) return true;
      this.pair(copy, free.splice(at, 1)[0]);
      this.equals += 1;
      return false;
    });
    const kinds = [true, false];
    for (const pitched of kinds)
      this.matchRest(
        free.filter((chain) => isPitched(chain) === pitched),
        rest.filter((chain) => isPitched(chain) === pitched),
        ringing,
      );
  }

  private matchRest(
    free: readonly Chain[],
    rest: readonly Chain[],
    ringing: (midi: number) => Chain | undefined,
  ): void {
    const upwards = [...rest].sort((a, b) => (this.midi(a) ?? 0) - (this.midi(b) ?? 0));
    const candidates = [...free].sort((a, b) => (writtenMidi(firstHead(a)) ?? 0) - (writtenMidi(firstHead(b)) ?? 0));
    const isWhole = candidates.length === upwards.length;
    upwards.forEach((copy, index) => {
      const midi = this.midi(copy);
      const held = midi === null ? undefined : ringing(midi);
      const partner = isWhole ? candidates[index] : held;
      if (partner === undefined) this.unpaired.push(copy);
      else this.pair(copy, partner);
      if (partner !== undefined && partner !== held && isPitched(copy) && !isHarmonic(copy) && !isHarmonic(partner))
        this.disagreeing.push(copy);
    });
  }

  private midi(copy: Chain): number | null {
    const fretted = fingerboardMidi(copy, this.tuning);
    return fretted === null ? null : fretted - this.distance;
  }

  /** Where a capo has moved, notation at sounding pitch moves with it. */
  private isEqual(midi: number | null, copy: Chain): boolean {
    const own = this.midi(copy);
    const capoBy = firstHead(copy).strings?.capoBy ?? 0;
    return midi === own || (capoBy !== 0 && own !== null && midi === own + capoBy);
  }

  private pair(copy: Chain, original: Chain | undefined): void {
    if (original !== undefined) this.copyOf.set(copy, original);
  }
}

/** Whether a chain sounds elsewhere than its fret tells. */
const isHarmonic = (chain: Chain): boolean =>
  firstHead(chain).techniques.some((technique) => technique.endsWith('Harmonic'));

const isPitched = (chain: Chain): boolean => writtenMidi(firstHead(chain)) !== null;

/** Finds sounding chains by pitch: the last of a pitch that began before a moment and still sounds then. */
function ringingAt(notation: readonly Chain[]): (midi: number, ticks: number) => Chain | undefined {
  const byMidi = new Map<number, Chain[]>();
  for (const chain of notation) {
    const midi = writtenMidi(firstHead(chain));
    if (midi === null) continue;
    const same = byMidi.get(midi);
    if (same === undefined) byMidi.set(midi, [chain]);
    else same.push(chain);
  }
  return (midi, ticks) => byMidi.get(midi)?.findLast((chain) => chain.onsetTicks < ticks && chain.endTicks > ticks);
}

/** Pairs tablature with notation by matching what is struck at each onset, at the distance that fits most. */
export function pairTablature(notation: readonly Chain[], tablature: readonly Chain[], tuning: Tuning): Pairing {
  const struck = byOnset(notation);
  const matcher = new Matcher(distanceBetween(struck, tablature, tuning), tuning);
  const ringing = ringingAt(notation);
  for (const [ticks, copies] of byOnset(tablature))
    matcher.match(struck.get(ticks) ?? [], copies, (midi) => ringing(midi, ticks));
  const { copyOf, unpaired, disagreeing } = matcher;
  const distance = distanceBetween(struck, tablature, tuning);
  return {
    distance,
    copyOf,
    unpaired,
    disagreeing,
    agreement: tablature.length === 0 ? 0 : matcher.equals / tablature.length,
  };
}

/** Reports what a pairing found wanting. */
export function reportPairing(pairing: Pairing, notation: readonly Chain[], log: IssueLog): void {
  const placeOf = (chain: Chain): Parameters<IssueLog['add']>[3] => {
    const { barIndex, offsetTicks } = firstHead(chain);
    return { partName: chain.part.name, barIndex, offsetTicks };
  };
  for (const chain of pairing.disagreeing) {
    log.add(
      'tablature-disagrees',
      'warning',
      'The tablature shows another pitch than the notation; the notation’s pitch was kept.',
      placeOf(chain),
    );
  }
  for (const chain of pairing.unpaired) {
    log.add(
      'tablature-unpaired',
      'warning',
      'The tablature shows a note that the notation does not have; it was kept as a note of its own.',
      placeOf(chain),
    );
  }
  const shown = new Set(pairing.copyOf.values());
  for (const chain of notation) {
    if (shown.has(chain)) continue;
    log.add('tablature-unpaired', 'note', 'The notation has a note that the tablature does not show.', placeOf(chain));
  }
}
