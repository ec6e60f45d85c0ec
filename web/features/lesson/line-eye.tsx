import { DialogTrigger } from 'react-aria-components';
import type { Line } from '../../../music/index.ts';
import { lineTones } from '../../playback/line-tones.ts';
import { BareButton } from '../../ui/buttons.tsx';
import { heardAs } from '../../ui/eye-tone.ts';
import { Eye } from '../../ui/eye.tsx';
import { HangingSlip } from '../../ui/hanging-slip.tsx';
import { LineSound } from './line-sound.tsx';
import type { Listening } from './use-listening.ts';

interface LineEyeProps {
  readonly line: Line;
  readonly listening: Listening;
}

/** A line's eye; pressed, the slip with its sound hangs from it. */
export function LineEye({ line, listening }: LineEyeProps) {
  const tone = lineTones(listening.lines, listening.snapshot).get(line.id) ?? 'plain';
  return (
    <DialogTrigger>
      <BareButton aria-label={`${line.name}: ${heardAs[tone]}`}>
        <Eye line={line} tone={tone} />
      </BareButton>
      <HangingSlip title={line.name} label={`The sound of ${line.name}`} placement="right top" dye={line.dye}>
        <LineSound line={line} listening={listening} />
      </HangingSlip>
    </DialogTrigger>
  );
}
