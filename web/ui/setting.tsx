import { Label, Slider, SliderOutput, SliderThumb, SliderTrack } from 'react-aria-components';
import styles from './setting.module.css';

interface SettingProps {
  readonly label: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly step: number;
  /** `sides` where nothing is in the middle and it grows both ways; without it, from little to much. */
  readonly shape?: 'grows' | 'sides';
  readonly words: (value: number) => string;
  readonly onSet: (value: number) => void;
}

/** Something between little and much, or between two sides: a thread with an eye for a handle. */
export const Setting = ({ label, value, least, most, step, shape = 'grows', words, onSet }: SettingProps) => (
  <Slider className={styles.setting ?? ''} value={value} minValue={least} maxValue={most} step={step} onChange={onSet}>
    <Label className={styles.label ?? ''}>{label}</Label>
    <SliderOutput className={styles.words ?? ''}>{words(value)}</SliderOutput>
    <SliderTrack className={styles.track ?? ''} data-shape={shape}>
      <SliderThumb className={styles.handle ?? ''} />
    </SliderTrack>
  </Slider>
);
