import { plainSetting, type Line } from '../../../music/index.ts';
import { LineMixer } from '../../ui/line-mixer.tsx';
import type { Listening } from './use-listening.ts';

interface LineSoundProps {
  readonly line: Line;
  readonly listening: Listening;
}

/** What stands in the slip of a line, how it sounds: lifted, alone, silent, forward, louder or softer, darker or brighter, from which side, on what. */
export function LineSound({ line, listening }: LineSoundProps) {
  const { player, snapshot, lifted, lift } = listening;
  return (
    <LineMixer
      setting={snapshot.settings.get(line.id) ?? plainSetting}
      hasPitch={line.role !== 'percussion'}
      onSet={(part) => player.setLine(line.id, part)}
      deeds={{
        isLifted: lifted.has(line.id),
        isForward: snapshot.forward === line.id,
        onLift: () => lift(line.id),
        onForward: (isForward) => player.bringForward(isForward ? line.id : null),
      }}
    />
  );
}
