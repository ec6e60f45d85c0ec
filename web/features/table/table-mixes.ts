import type { NamedMix } from '../../../contract/index.ts';
import { activeLines } from '../../../music/index.ts';
import { foundMix, isSameMix, namedMixOf, type HeardMix } from '../../playback/named-mixes.ts';
import type { PlayerSnapshot } from '../../playback/player-snapshot.ts';
import type { Desk } from './desk.ts';
import type { TableState } from './table-state.ts';

/** The mix as it is heard and seen at the table just now. */
export const heardMixOf = (
  { settings, forward }: Pick<PlayerSnapshot, 'settings' | 'forward'>,
  { lifted }: Pick<TableState, 'lifted'>,
): HeardMix => ({ settings, forward, lifted });

/** Lets a mix be heard and seen. */
export function hearMix({ table, sound }: Pick<Desk, 'table' | 'sound'>, heard: HeardMix): void {
  sound.player.setMix(heard.settings);
  sound.player.bringForward(heard.forward);
  table.liftOnly(heard.lifted);
}

/** What is set at the table just now; null where everybody is heard plainly. */
export function presentMixOf({ sound }: Pick<Desk, 'sound'>, state: TableState): NamedMix | null {
  const lines = activeLines(state.room.split).map(({ id }) => id);
  const heard = heardMixOf(sound.player.getSnapshot(), state);
  const mix = namedMixOf('present', 'what is set at the table now', heard, lines);
  return mix.lines.length === 0 && mix.forward === null ? null : mix;
}

/** The named mix after the one that is heard, round and round; the first where none of them is. */
export function hearNextMix({ table, sound, kept }: Desk): void {
  const state = table.getSnapshot();
  const lines = activeLines(state.room.split).map(({ id }) => id);
  const mixes = (kept.getSnapshot().document?.mixes ?? []).map((mix) => foundMix(mix, lines).heard);
  const present = heardMixOf(sound.player.getSnapshot(), state);
  const next = mixes[(mixes.findIndex((mix) => isSameMix(mix, present, lines)) + 1) % Math.max(1, mixes.length)];
  if (next !== undefined) hearMix({ table, sound }, next);
}
