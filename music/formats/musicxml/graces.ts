import { noteId, type NoteId } from '../../basis/ids.ts';
import type { Bar, GraceNote, NoteSound } from '../../score/score.ts';
import type { Chain } from './chains.ts';
import type { IssueLog } from './issue-log.ts';
import { partAt, pitchedSound, type IdOfHead } from './note-table.ts';
import type { PartLayout } from './part-layout.ts';
import { staffKindOf, type RawHead } from './raw-part.ts';

interface FoundGrace {
  readonly head: RawHead;
  readonly main: RawHead;
}

/** From the closest kinship to the loosest: a grace note leads to a note of its own voice and staff, else of its voice, of its staff, of its part. */
const kinships: readonly ((head: RawHead) => string)[] = [
  ({ staff, voice }) => `${staff} ${voice}`,
  ({ voice }) => `voice ${voice}`,
  ({ staff }) => `staff ${staff}`,
  () => 'part',
];

/** The nearest main heads on one side of a place, by kinship. */
class NearestMains {
  private readonly heads = new Map<string, RawHead>();

  add(head: RawHead): void {
    for (const kinship of kinships) this.heads.set(kinship(head), head);
  }

  /** The main of a grace head: the closest kin at its own moment, else the closest kin at all. */
  of(grace: RawHead): RawHead | undefined {
    const kin = kinships.flatMap((kinship) => this.heads.get(kinship(grace)) ?? []);
    return kin.find((head) => head.barIndex === grace.barIndex && head.offsetTicks === grace.offsetTicks) ?? kin[0];
  }
}

/** Each grace head with the head that it leads to, or that it follows where none comes after it. */
function gracesWithMains(all: readonly RawHead[], onOrphan: (head: RawHead) => void): FoundGrace[] {
  const heads = all.filter(({ isCue }) => !isCue);
  const mains = new Map<RawHead, RawHead>();
  for (const inOrder of [heads.toReversed(), heads]) {
    const nearest = new NearestMains();
    for (const head of inOrder) {
      if (!head.isGrace) {
        if (!head.isChordMember || inOrder === heads) nearest.add(head);
      } else if (!mains.has(head)) {
        const main = nearest.of(head);
        if (main !== undefined) mains.set(head, main);
      }
    }
  }
  return heads
    .filter(({ isGrace }) => isGrace)
    .flatMap((head): FoundGrace[] => {
      const main = mains.get(head);
      if (main === undefined) onOrphan(head);
      return main === undefined ? [] : [{ head, main }];
    });
}

interface GraceDraft {
  readonly main: NoteId;
  readonly sound: NoteSound;
  readonly heads: RawHead[];
  readonly isTablature: boolean;
  readonly hasSlash: boolean;
  readonly isChordMember: boolean;
}

/** Which sounding note each head belongs to, grace notes apart. */
function noteIdsOf(layouts: readonly PartLayout[], idOf: IdOfHead): Map<RawHead, NoteId> {
  const ids = new Map<RawHead, NoteId>();
  const addAll = (chain: Chain, id: NoteId): void => {
    for (const head of chain.heads) ids.set(head, id);
  };
  for (const layout of layouts) {
    for (const chain of layout.chains) {
      const [first] = chain.heads;
      if (first === undefined) continue;
      const id = noteId(idOf(first));
      addAll(chain, id);
      for (const copy of layout.copies.get(chain) ?? []) addAll(copy, id);
    }
  }
  return ids;
}

/** Which sounding or grace note each head belongs to. */
export function idsOfAllHeads(
  layouts: readonly PartLayout[],
  graces: readonly GraceNote[],
  idOf: IdOfHead,
): Map<RawHead, NoteId> {
  const ids = noteIdsOf(layouts, idOf);
  const graceOf = new Map(graces.flatMap(({ id, heads }) => heads.map((head) => [head, id] as const)));
  for (const head of layouts.flatMap(({ raw }) => raw.heads.filter(({ isGrace }) => isGrace))) {
    const id = graceOf.get(idOf(head));
    if (id !== undefined) ids.set(head, id);
  }
  return ids;
}

function draftsOf(
  layout: PartLayout,
  mains: ReadonlyMap<RawHead, NoteId>,
  bars: readonly Bar[],
  log: IssueLog,
): GraceDraft[] {
  const { raw } = layout;
  const report = (head: RawHead): void => {
    log.add('element-left-out', 'warning', 'A grace note leads to no note and was left out.', {
      partName: raw.name,
      barIndex: head.barIndex,
      offsetTicks: head.offsetTicks,
    });
  };
  return gracesWithMains(raw.heads, report).flatMap(({ head, main }): GraceDraft[] => {
    const id = mains.get(main);
    if (id === undefined) return [];
    const sound = pitchedSound(head, partAt(head.strings, layout), bars[head.barIndex]) ?? {
      kind: 'hit',
      hit: 'deadNote',
      isCertain: false,
    };
    return [
      {
        main: id,
        sound,
        heads: [head],
        isTablature: staffKindOf(raw, head.staff) === 'tablature',
        hasSlash: head.hasSlash,
        isChordMember: head.isChordMember,
      },
    ];
  });
}

/** Joins each grace note of a tablature with that of the notation before the same main note, one after the other. */
function joinCopies(drafts: readonly GraceDraft[]): GraceDraft[] {
  const notation = drafts.filter(({ isTablature }) => !isTablature);
  const joined = new Set<GraceDraft>();
  const others = drafts.filter((draft) => {
    if (!draft.isTablature) return false;
    const partner = notation.find((candidate) => candidate.main === draft.main && !joined.has(candidate));
    if (partner === undefined) return true;
    joined.add(partner);
    partner.heads.push(...draft.heads);
    return false;
  });
  return [...notation, ...others];
}

/** The grace notes of all parts, in the order in which they are written. */
export function gracesOf(
  layouts: readonly PartLayout[],
  bars: readonly Bar[],
  idOf: IdOfHead,
  log: IssueLog,
): GraceNote[] {
  if (!layouts.some(({ raw }) => raw.heads.some((head) => head.isGrace))) return [];
  const mains = noteIdsOf(layouts, idOf);
  const drafts = joinCopies(layouts.flatMap((layout) => draftsOf(layout, mains, bars, log)));
  return drafts.map(({ main, sound, heads, hasSlash, isChordMember }): GraceNote => {
    const ids = heads.map(idOf);
    const fingerboard = heads.map((head) => head.fingerboard).find((place) => place !== null) ?? null;
    const together = isChordMember ? ({ isChordMember: true } as const) : {};
    return { id: noteId(ids[0] ?? ''), main, sound, heads: ids, fingerboard, hasSlash, ...together };
  });
}
