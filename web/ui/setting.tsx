import { Label, Slider, SliderOutput, SliderThumb, SliderTrack } from 'react-aria-components';
import styles from './setting.module.css';

interface SettingProps {
  readonly label: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly step: number;
  readonly words: (value: number) => string;
  readonly onSet: (value: number) => void;
}

/** Something between little and much: a thread with an eye for a handle. */
export const Setting = ({ label, value, least, most, step, words, onSet }: SettingProps) => (
  <Slider className={styles.setting ?? ''} value={value} minValue={least} maxValue={most} step={step} onChange={onSet}>
    <Label className={styles.label ?? ''}>{label}</Label>
    <SliderOutput className={styles.words ?? ''}>{words(value)}</SliderOutput>
    <SliderTrack className={styles.track ?? ''}>
      <SliderThumb className={styles.handle ?? ''} />
    </SliderTrack>
  </Slider>
);
