import type { Player } from './player.ts';
import { usePlayer } from './react.ts';

/** A quiet word where this device could not keep up; nothing where it could. */
export function BreaksWord({ player }: { readonly player: Player }) {
  const { breaks } = usePlayer(player);
  if (breaks === 0) return null;
  const times = breaks === 1 ? 'once' : `${breaks} times`;
  return <small role="status">The sound broke off {times}: this device had too much to do.</small>;
}
