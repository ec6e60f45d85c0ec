import { useMemo, useState } from 'react';
import type { NamedMix } from '../../../contract/index.ts';
import { plainSetting, type Line } from '../../../music/index.ts';
import { foundMix, withHeard, type HeardMix } from '../../playback/named-mixes.ts';
import { WordButton } from '../../ui/buttons.tsx';
import { Slip } from '../../ui/dialog.tsx';
import { LineMixer } from '../../ui/line-mixer.tsx';
import { MixByEye } from '../../ui/mixes/mix-by-eye.tsx';
import { HearMix, type HeardExcerpt } from './hear-mix.tsx';

interface NamedMixSlipProps {
  readonly mix: NamedMix;
  readonly lines: readonly Line[];
  readonly excerpt: HeardExcerpt;
  readonly onChange: (mix: NamedMix) => void;
}

/** A named mix of a step: a word, and behind it each of its lines, to be set and heard. */
export function NamedMixSlip(props: NamedMixSlipProps) {
  const { mix } = props;
  const [isOpen, setOpen] = useState(false);
  return (
    <>
      <WordButton aria-label={`Set and hear ${mix.name}`} onPress={() => setOpen(true)}>
        Set and hear
      </WordButton>
      <Slip title={`The mix “${mix.name}”`} isOpen={isOpen} onClose={() => setOpen(false)}>
        <NamedMixForm {...props} />
      </Slip>
    </>
  );
}

function NamedMixForm({ mix, lines, excerpt, onChange }: NamedMixSlipProps) {
  const ids = useMemo(() => lines.map(({ id }) => id), [lines]);
  const heard = useMemo(() => foundMix(mix, ids).heard, [mix, ids]);
  const set = (part: Partial<HeardMix>) => onChange(withHeard(mix, { ...heard, ...part }, ids));
  return (
    <>
      <HearMix excerpt={excerpt} mix={heard} />
      <MixByEye lines={lines} heard={heard}>
        {({ id, role }) => (
          <LineMixer
            setting={heard.settings.get(id) ?? plainSetting}
            hasPitch={role !== 'percussion'}
            deeds={{
              isLifted: heard.lifted.has(id),
              isForward: heard.forward === id,
              onLift: (isLifted) =>
                set({ lifted: new Set([...heard.lifted].filter((each) => each !== id).concat(isLifted ? id : [])) }),
              onForward: (isForward) => set({ forward: isForward ? id : null }),
            }}
            onSet={(part) => {
              const own = { ...plainSetting, ...heard.settings.get(id), ...part };
              set({ settings: new Map([...heard.settings, [id, own]]) });
            }}
          />
        )}
      </MixByEye>
    </>
  );
}
