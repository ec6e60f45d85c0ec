import type { PartId } from '../../basis/ids.ts';
import { assumedTempo } from '../../score/assumed-tempo.ts';
import type { Bar, DynamicMark, Rest, TempoMark } from '../../score/score.ts';
import { firstHead } from './chains.ts';
import { dynamicsReach } from './dynamics-reach.ts';
import type { PartLayout } from './part-layout.ts';
import { staffKindOf, type RawDynamic, type RawMoment, type RawPart, type RawTempo } from './raw-part.ts';

const ticksOf = (moment: RawMoment, bars: readonly Bar[]): number =>
  (bars[moment.barIndex]?.onsetTicks ?? 0) + moment.offsetTicks;

const byOnset = (a: { readonly onsetTicks: number }, b: { readonly onsetTicks: number }): number =>
  a.onsetTicks - b.onsetTicks;

/** What is believed first where several tell a tempo at one moment: what is to be heard, then what is drawn. */
const tempoRanks: Readonly<Record<RawTempo['tempo']['kind'], number>> = { sound: 0, metronome: 1, equation: 2 };

/** The tempos of one part by their moments: of several at one moment the one that is believed, of equals the last. */
function tempoByTicks({ tempos }: RawPart, bars: readonly Bar[]): Map<number, RawTempo['tempo']> {
  const byTicks = new Map<number, RawTempo['tempo']>();
  for (const { tempo, ...moment } of tempos) {
    const ticks = ticksOf(moment, bars);
    const known = byTicks.get(ticks);
    if (known === undefined || tempoRanks[tempo.kind] <= tempoRanks[known.kind]) byTicks.set(ticks, tempo);
  }
  return byTicks;
}

/** The tempos of all parts in order of time, one at each moment; where parts differ, that of the first is believed. */
export function temposOf(parts: readonly RawPart[], bars: readonly Bar[]): TempoMark[] {
  const byTicks = new Map<number, RawTempo['tempo']>();
  for (const [ticks, tempo] of parts.flatMap((part) => [...tempoByTicks(part, bars)])) {
    const known = byTicks.get(ticks);
    if (known === undefined || tempoRanks[tempo.kind] < tempoRanks[known.kind]) byTicks.set(ticks, tempo);
  }
  let quartersPerMinute: number = assumedTempo;
  return [...byTicks]
    .sort(([a], [b]) => a - b)
    .map(([onsetTicks, tempo]) => {
      quartersPerMinute = tempo.kind === 'equation' ? quartersPerMinute * tempo.factor : tempo.quartersPerMinute;
      return { onsetTicks, quartersPerMinute };
    });
}

/** The staves of a part in which something sounds. */
const soundingStaves = ({ chains, part }: PartLayout): readonly number[] =>
  part.pairedWith === null ? [...new Set(chains.map((chain) => firstHead(chain).staff))].sort((a, b) => a - b) : [];

/** A mark, and the staves of its part that it is for; null where it is for all. */
interface Reached {
  readonly mark: DynamicMark;
  readonly staves: readonly number[] | null;
}

type HairpinStart = RawDynamic & { readonly mark: Extract<RawDynamic['mark'], { kind: 'hairpinStart' }> };
const isStart = (dynamic: RawDynamic): dynamic is HairpinStart => dynamic.mark.kind === 'hairpinStart';

/** The hairpins that are open at a moment; each staff of a part counts its own. */
class OpenHairpins {
  private open: readonly HairpinStart[] = [];

  start(start: HairpinStart): void {
    const isSame = ({ staff, mark }: HairpinStart): boolean =>
      staff === start.staff && mark.number === start.mark.number;
    this.open = [...this.open.filter((other) => !isSame(other)), start];
  }

  stop(number: string, staff: number | null): HairpinStart | undefined {
    const ofNumber = this.open.filter(({ mark }) => mark.number === number);
    const start = ofNumber.find((each) => each.staff === staff) ?? ofNumber.at(-1);
    this.open = this.open.filter((each) => each !== start);
    return start;
  }
}

function dynamicsOfPart(layout: PartLayout, bars: readonly Bar[]): Reached[] {
  const { dynamics } = layout.raw;
  const stavesOf = dynamicsReach(dynamics, soundingStaves(layout));
  const open = new OpenHairpins();
  return dynamics.flatMap((dynamic): Reached[] => {
    const { mark } = dynamic;
    const [onsetTicks, staves] = [ticksOf(dynamic, bars), stavesOf(dynamic)];
    if (mark.kind === 'level') return [{ mark: { kind: 'level', onsetTicks, level: mark.level }, staves }];
    if (mark.kind === 'accent') return [{ mark: { kind: 'accent', onsetTicks, sign: mark.sign }, staves }];
    if (isStart(dynamic)) open.start(dynamic);
    const start = mark.kind === 'hairpinStop' ? open.stop(mark.number, dynamic.staff) : undefined;
    if (start === undefined || onsetTicks <= ticksOf(start, bars)) return [];
    const { direction } = start.mark;
    const hairpin = { kind: 'hairpin', onsetTicks: ticksOf(start, bars), direction, endTicks: onsetTicks } as const;
    return [{ mark: hairpin, staves: stavesOf(start) }];
  });
}

/** The dynamics of all parts in order of time, each with the parts that it is for where several sound, or with the staves of its part where it is not for all; tablature that copies a part speaks for that part. What several parts say at once stands once. */
export function dynamicsOf(layouts: readonly PartLayout[], bars: readonly Bar[]): DynamicMark[] {
  const sounding = layouts.filter(({ chains, part }) => part.pairedWith === null && chains.length > 0);
  const found = new Map<string, { readonly mark: DynamicMark; readonly parts: Set<PartId> }>();
  for (const layout of layouts)
    for (const { mark: said, staves } of dynamicsOfPart(layout, bars)) {
      const part = layout.part.pairedWith ?? layout.part.id;
      const mark: DynamicMark = staves === null ? said : { ...said, staves };
      const key = JSON.stringify([mark, staves === null ? null : part]);
      const saidBefore = found.get(key) ?? { mark, parts: new Set<PartId>() };
      found.set(key, saidBefore);
      saidBefore.parts.add(part);
    }
  const marks = [...found.values()].map(({ mark, parts }): DynamicMark =>
    mark.staves === undefined && sounding.every(({ part }) => parts.has(part.id))
      ? mark
      : { ...mark, parts: [...parts] },
  );
  return marks.sort(byOnset);
}

/** The rests of all parts in order of time; those of tablature that copies notation are left out. */
export function restsOf(layouts: readonly PartLayout[], bars: readonly Bar[]): Rest[] {
  return layouts
    .flatMap(({ raw, part }) => {
      if (part.pairedWith !== null) return [];
      const hasNotation = part.staves.some((kind) => kind !== 'tablature');
      const kept = hasNotation ? raw.rests.filter((rest) => staffKindOf(raw, rest.staff) !== 'tablature') : raw.rests;
      return kept.flatMap((rest): Rest[] => {
        const bar = bars[rest.barIndex];
        if (bar === undefined) return [];
        const voice = { part: part.id, staff: rest.staff, voice: rest.voice, stem: null };
        const lengthTicks = Math.min(rest.lengthTicks, Math.max(0, bar.lengthTicks - rest.offsetTicks));
        return [{ bar: bar.id, voice, onsetTicks: bar.onsetTicks + rest.offsetTicks, lengthTicks }];
      });
    })
    .sort(byOnset);
}
